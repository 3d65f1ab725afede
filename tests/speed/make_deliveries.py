"""Writes deliveries to measure with: csv lists of suppliers who do not exist, with slips in some weights.

    python3 make_deliveries.py FOLDER [DELIVERIES] [LINES]

The lists stand in a folder a day, YYYY-MM-DD, twenty a day; the same call writes the same bytes.
"""

import datetime
import math
import pathlib
import random
import sys

A_DAY = 20
LB = 0.45359237
STEEL = 7850  # kg/m3 (EN 1991-1-1, table A.4, from memory)
CONCRETE = 2403  # kg/m3: 150 lb/ft3, reinforced
HEADINGS = "Item,Description,Material,Qty,Length (mm),Width (mm),Height (mm),Outside dia (mm),Wall (mm),Gross weight (kg)\n"
FIRST = "Alder Ash Birch Bramble Bracken Clover Fern Gorse Hazel Heather Ivy Larch Linden Moss Rowan Rush Sedge Sorrel Thistle Willow".split()
SECOND = "Bank Ford Moor Sluice Tarn Weir Wharf Yard Mill Cross".split()
TRADE = "Steel Precast Tube".split()
SUPPLIERS = [f"{a} {b} {c}" for a in FIRST for b in SECOND for c in TRADE]


def goods(chance):
    """One line: description, material, sizes, and what a piece weighs in kilograms."""
    kind = chance.choices(range(4), (5, 4, 4, 1))[0]
    if kind == 0:
        sizes = (chance.randrange(1000, 6001, 100), chance.randrange(500, 2001, 50), chance.choice([6, 8, 10, 12, 15, 20, 25, 30]))
        return "Steel plate", "S235", (*sizes, None, None), math.prod(sizes) * 1e-9 * STEEL
    if kind == 1:
        length, out, wall = chance.randrange(2000, 6001, 250), chance.choice([60.3, 88.9, 114.3, 168.3, 219.1]), chance.choice([4, 5, 6.3, 8])
        area = math.pi / 4 * (out**2 - (out - 2 * wall) ** 2)
        return "Steel pipe", "S235", (length, None, None, out, wall), area * length * 1e-9 * STEEL
    if kind == 2:
        sizes = (chance.randrange(400, 2401, 100), chance.randrange(300, 1201, 100), chance.randrange(200, 801, 50))
        return "Concrete block", "reinforced concrete", (*sizes, None, None), math.prod(sizes) * 1e-9 * CONCRETE
    return "Pump on skid", "", (1200, 800, 900, None, None), chance.uniform(300, 900)


def slip(chance, kg, pieces):
    """What the list says of a weight in kilograms: mostly the truth, now and then one of the usual slips."""
    fate = chance.random()
    if fate < 0.02:
        return kg * LB
    if fate < 0.04:
        return kg / pieces
    if fate < 0.05:
        return kg / 10
    if fate < 0.06:
        return None
    return kg * chance.uniform(0.98, 1.02)


def line(chance, number):
    what, material, sizes, piece = goods(chance)
    pieces = chance.choice([1, 1, 1, 2, 4, 6])
    declared = slip(chance, piece * pieces, pieces)
    cells = ["" if size is None else str(size) for size in sizes]
    weight = "" if declared is None else f"{declared:.1f}"
    return f"I-{number:05},{what} {number % 97},{material},{pieces},{','.join(cells)},{weight}\n"


def main():
    folder = pathlib.Path(sys.argv[1])
    deliveries, lines = (int(text) for text in (sys.argv[2:] + ["500", "2000"][len(sys.argv) - 2 :]))
    first = datetime.date(2025, 1, 6)
    for number in range(deliveries):
        chance = random.Random(number)
        day = folder / str(first + datetime.timedelta(days=21 * (number // A_DAY)))
        day.mkdir(parents=True, exist_ok=True)
        text = f"Supplier,{chance.choice(SUPPLIERS)}\nDelivery,{10000 + number}\n\n{HEADINGS}"
        text += "".join(line(chance, at) for at in range(1, lines + 1))
        (day / f"list-{10000 + number}.csv").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
