BEGIN TRANSACTION;
CREATE TABLE batches (
    id INTEGER PRIMARY KEY,
    lot TEXT NOT NULL COLLATE NOCASE UNIQUE,
    name TEXT NOT NULL DEFAULT '',
    code TEXT NOT NULL DEFAULT '',
    plant TEXT NOT NULL DEFAULT '',
    latin TEXT NOT NULL DEFAULT '',
    part TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT '',
    preparation TEXT NOT NULL,
    method TEXT NOT NULL DEFAULT '',
    started TEXT NOT NULL,
    shake_until TEXT,
    press_on TEXT,
    ready_on TEXT,
    pressed_on TEXT,
    best_before TEXT,
    expected REAL,
    actual REAL,
    unit TEXT NOT NULL DEFAULT 'mL',
    record TEXT NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
INSERT INTO "batches" VALUES(1,'24-07','nettle','','nettle','','','','tincture','','2031-06-12',NULL,'2031-06-14',NULL,NULL,'2034-06-14',244.0,NULL,'mL','{"assumptions": [{"text": "80 % water"}], "figures": [{"about": "", "origin": "said", "quantity": "ratio", "unit": "1", "value": 2.0}], "steps": [], "tables": {}}',NULL);
INSERT INTO "batches" VALUES(2,'F-1','','H12','','','','','formula','','2031-06-12',NULL,NULL,NULL,NULL,'2031-06-01',100.0,NULL,'mL','{}',NULL);
CREATE TABLE belongings (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    name TEXT NOT NULL,
    data TEXT NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL,
    UNIQUE (kind, name)
) STRICT;
CREATE TABLE bottlings (
    id INTEGER PRIMARY KEY,
    batch INTEGER NOT NULL REFERENCES batches (id) ON DELETE CASCADE,
    bottled_on TEXT NOT NULL,
    bottles INTEGER NOT NULL,
    size REAL NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
INSERT INTO "bottlings" VALUES(1,1,'2031-06-12',4,50.0,NULL);
INSERT INTO "bottlings" VALUES(2,2,'2031-06-12',1,100.0,NULL);
CREATE TABLE checks (
    id INTEGER PRIMARY KEY,
    batch INTEGER NOT NULL REFERENCES batches (id) ON DELETE CASCADE,
    field TEXT NOT NULL,
    made_on TEXT NOT NULL,
    words TEXT NOT NULL,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
INSERT INTO "checks" VALUES(1,1,'c','2031-06-12','jar and press scalded',NULL);
CREATE TABLE components (
    id INTEGER PRIMARY KEY,
    batch INTEGER NOT NULL REFERENCES batches (id) ON DELETE CASCADE,
    place INTEGER NOT NULL,
    what TEXT NOT NULL,
    amount REAL,
    unit TEXT NOT NULL,
    lot TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    source TEXT NOT NULL DEFAULT '',
    gathering INTEGER REFERENCES gatherings (id) ON DELETE SET NULL,
    item INTEGER REFERENCES items (id) ON DELETE SET NULL,
    UNIQUE (batch, place)
) STRICT;
INSERT INTO "components" VALUES(1,1,1,'nettle fresh',112.0,'g','','',1,NULL);
INSERT INTO "components" VALUES(2,1,2,'spirit of 95 %',141.5,'mL','S-12','',NULL,1);
INSERT INTO "components" VALUES(3,1,3,'water',89.0,'mL','','',NULL,NULL);
INSERT INTO "components" VALUES(4,2,1,'nettle',40.0,'mL','24-07','',NULL,NULL);
CREATE TABLE conversations (
    id INTEGER PRIMARY KEY,
    begun TEXT NOT NULL,
    opening TEXT NOT NULL DEFAULT '{}'
) STRICT;
INSERT INTO "conversations" VALUES(1,'2031-06-12','{}');
CREATE TABLE gatherings (
    id INTEGER PRIMARY KEY,
    plant TEXT NOT NULL,
    latin TEXT NOT NULL DEFAULT '',
    part TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT '',
    place TEXT NOT NULL DEFAULT '',
    gathered_on TEXT NOT NULL,
    weight REAL,
    stand_plants REAL,
    plants_taken REAL,
    stand_share REAL,
    permission TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT '',
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
INSERT INTO "gatherings" VALUES(1,'nettle','','leaf','','Mill Lane','2031-06-10',640.0,NULL,NULL,20.0,'the farm''s leave','',NULL);
INSERT INTO "gatherings" VALUES(2,'nettle','','','','Mill Lane','2030-05-02',300.0,200.0,30.0,NULL,'','',NULL);
CREATE TABLE items (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    name TEXT NOT NULL COLLATE NOCASE,
    strength REAL NOT NULL DEFAULT 0,
    unit TEXT NOT NULL,
    UNIQUE (kind, name, strength, unit)
) STRICT;
INSERT INTO "items" VALUES(1,'spirit','spirit',95.0,'mL');
CREATE TABLE measured (
    id INTEGER PRIMARY KEY,
    quantity TEXT NOT NULL,
    plant TEXT NOT NULL DEFAULT '',
    part TEXT NOT NULL DEFAULT '',
    method TEXT NOT NULL DEFAULT '',
    value REAL NOT NULL,
    measured_on TEXT NOT NULL,
    batch INTEGER REFERENCES batches (id) ON DELETE CASCADE,
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
INSERT INTO "measured" VALUES(1,'held_per_gram','nettle','','a potato ricer',2.4,'2031-06-12',1,NULL);
CREATE TABLE movements (
    id INTEGER PRIMARY KEY,
    item INTEGER NOT NULL REFERENCES items (id) ON DELETE CASCADE,
    moved_on TEXT NOT NULL,
    amount REAL NOT NULL,
    batch INTEGER REFERENCES batches (id) ON DELETE CASCADE,
    lot TEXT NOT NULL DEFAULT '',
    price REAL,
    note TEXT NOT NULL DEFAULT '',
    turn INTEGER REFERENCES turns (id) ON DELETE SET NULL
) STRICT;
INSERT INTO "movements" VALUES(1,1,'2031-06-12',5000.0,NULL,'S-12',60.0,'',NULL);
INSERT INTO "movements" VALUES(2,1,'2031-06-12',-141.5,1,'',NULL,'',NULL);
CREATE TABLE turns (
    id INTEGER PRIMARY KEY,
    conversation INTEGER NOT NULL REFERENCES conversations (id) ON DELETE CASCADE,
    n INTEGER NOT NULL,
    said_on TEXT NOT NULL,
    heard TEXT NOT NULL,
    status TEXT NOT NULL,
    delta TEXT NOT NULL,
    moves TEXT NOT NULL DEFAULT '',
    UNIQUE (conversation, n)
) STRICT;
INSERT INTO "turns" VALUES(1,1,1,'2031-06-12','112 g fresh nettle','noted','{}','');
CREATE INDEX gatherings_by_plant ON gatherings (plant, gathered_on);
CREATE INDEX gatherings_by_place ON gatherings (place, gathered_on);
CREATE INDEX batches_to_press ON batches (press_on) WHERE pressed_on IS NULL AND press_on IS NOT NULL;
CREATE INDEX batches_by_date ON batches (best_before) WHERE best_before IS NOT NULL;
CREATE INDEX batches_by_plant ON batches (plant, started);
CREATE INDEX components_by_gathering ON components (gathering) WHERE gathering IS NOT NULL;
CREATE INDEX components_by_lot ON components (lot);
CREATE INDEX movements_by_item ON movements (item);
CREATE INDEX movements_by_batch ON movements (batch) WHERE batch IS NOT NULL;
CREATE INDEX bottlings_by_batch ON bottlings (batch);
CREATE INDEX measured_by_quantity ON measured (quantity, plant, part);
CREATE INDEX checks_by_batch ON checks (batch);
CREATE INDEX gatherings_by_turn ON gatherings (turn) WHERE turn IS NOT NULL;
CREATE INDEX batches_by_turn ON batches (turn) WHERE turn IS NOT NULL;
CREATE INDEX movements_by_turn ON movements (turn) WHERE turn IS NOT NULL;
CREATE INDEX bottlings_by_turn ON bottlings (turn) WHERE turn IS NOT NULL;
CREATE INDEX measured_by_turn ON measured (turn) WHERE turn IS NOT NULL;
CREATE INDEX checks_by_turn ON checks (turn) WHERE turn IS NOT NULL;
CREATE INDEX belongings_by_turn ON belongings (turn) WHERE turn IS NOT NULL;
COMMIT;
