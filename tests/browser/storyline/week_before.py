"""Six days before the Monday, and three: a head knock, and a mass typed in the wrong unit."""

from browser.storyline.coach import Coach


def head_knock(coach: Coach) -> None:
    """D-6: A10 is knocked in sparring: the register, and the paper of the ringside doctor."""
    coach.wakes_on(-6)
    with coach.task("Head knock into the register"):
        coach.link("Squad", exact=True)
        coach.link("Lobsang Tsewangpa")
        coach.link("All restrictions")
        coach.link("Head knock")
        coach.button("Enter it")
    coach.told("out after a head knock, until medical staff give clearance.")
    with coach.task("Suspension copied from the paper"):
        coach.link("A suspension")
        coach.write("Suspended by", "Ringside doctor")
        coach.write("Reason", "head knock")
        coach.date("Last day without contact", 23)
        coach.date("Last day without competition", 23)
        coach.button("Enter it")
    coach.told("a suspension is entered")
    coach.sees("no contact with a partner (Ringside doctor, until 26 Mar 2026)")


def pounds_for_kilograms(coach: Coach) -> None:
    """D-3: A06 stands on scales that show pounds, and 184 is typed."""
    coach.wakes_on(-3)
    with coach.task("Body mass typed in the wrong unit, caught"):
        coach.link("Squad", exact=True)
        coach.link("Dónal Mac Firvane")
        coach.link("Add a body mass")
        coach.write("Body mass", "184")
        coach.button("Store")
        coach.sees("184 kg? Usual is 83.6 kg. Pounds? 184 lb is 83.5 kg.")
        coach.button("184 lb is 83.5 kg")
    coach.sees("83.5 kg")
