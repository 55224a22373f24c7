"""Water at the bench's reference temperature."""

#: Grams in a millilitre at 20 °C; OIML R 22 has 998.20123 kg/m³ (read).
GRAMS_PER_ML = 0.99820
