-- Loads by what a decision on them rests on: the same bytes may come again under another name.
CREATE INDEX load_by_substance ON load (substance);
