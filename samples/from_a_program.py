"""Kitproof used from a program: what sends a list back, the numbers behind it, and what carries a rig."""

from datetime import date

from kitproof import numbers, pair, proof, read

order = read("samples/nine-bells-faults.kitlist")
found = proof(order, day=date(2027, 3, 1))
if found.sends_back("stop"):
    first = found.findings[0]
    print(f"{found.tally.stop} to stop for, first in line {first.where.line}: {first.title}")

for rig in numbers(order, rig="B").rigs:
    for combination in rig.combinations:
        carried = combination.amount("carried")  # an interval, in kg
        if carried is not None:
            print(f"rig {rig.name} carries {carried.low:.2f} to {carried.high:.2f} kg")

for paired in pair(order, rig="B", most=1, day=date(2027, 3, 1)):
    for carries in paired.carries:
        print("carried by", ", ".join(part.label for part in carries.pairing.all_parts))

# The same with nothing of the list's taken from disk: each text by its path.
texts = {
    "monday.kitlist": 'use "stock.kitlist"\n\ncase "Pictures"\n  holds 3 x "Brack 7"\n',
    "stock.kitlist": 'part monitor "Brack 7"\n  mass 0.9\n',
}
for finding in proof(read("monday.kitlist", texts=texts)).findings:
    print(finding.where.path, finding.rule, finding.says)
