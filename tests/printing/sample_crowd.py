"""Squads of any size with names as long as they come, made by hand. People are invented."""

from dataclasses import replace

from printing.sample_plan import ropewalk
from squadwright.model.marks import bar_number
from squadwright.model.plan import (
    AttendanceLine,
    BarPlan,
    BarUser,
    GroupLine,
    Plan,
    PlatesOnSide,
    RunLine,
    SetUpItem,
)


def crowd(athletes: int, *, long_names: bool = True) -> Plan:
    """``athletes`` lifters, two to a bar; long names on purpose where asked."""
    start = ropewalk()
    names = [_crowd_name(n, long_names) for n in range(athletes)]
    ids = [f"C{n:02d}" for n in range(1, athletes + 1)]
    waves = [(ids[n], ids[n + 1]) for n in range(0, athletes, 2)]
    bars = tuple(
        BarPlan(
            f"bar-{n}",
            "20 kg bar with a worn knurl on the left" if n % 5 == 0 else "20 kg bar",
            20.0,
            (
                BarUser(first, 1, 62.5, 60.0, (PlatesOnSide(15.0, 1), PlatesOnSide(5.0, 1))),
                BarUser(second, 2, 72.5, 72.5,
                        (PlatesOnSide(20.0, 1), PlatesOnSide(5.0, 1), PlatesOnSide(1.25, 1))),
            ),
        )
        for n, (first, second) in enumerate(waves)
    )  # fmt: skip
    example = start.doses[0]
    loads = {u.athlete: (u.target_kg, u.load_kg) for b in bars for u in b.wave_users}
    return replace(
        start,
        attendance=tuple(
            AttendanceLine(i, name, "present") for i, name in zip(ids, names, strict=True)
        ),
        doses=tuple(
            replace(example, athlete=i, target_kg=loads[i][0], load_kg=loads[i][1]) for i in ids
        ),
        bars=bars,
        groups=tuple(
            GroupLine(f"Pair {n}", pair, "pair", "Ropewalk", bar=f"bar-{n - 1}")
            for n, pair in enumerate(waves, 1)
        ),
        run_sheet=_run_sheet(start, bars),
        set_up=tuple(
            SetUpItem("bars", "20 kg bar", 1, f"bar {bar_number(n)}") for n in range(len(bars))
        ),
        assumptions=("Every athlete is as strong as the first.",),
        audit=start.audit[1:],
    )


def _run_sheet(start: Plan, bars: tuple[BarPlan, ...]) -> tuple[RunLine, ...]:
    """The run sheet of twelve, its first bar's lines given to every bar."""
    lines = [line for line in start.run_sheet if line.group in ("coach", "all")]
    for line in start.run_sheet:
        if line.group == "pair 1":
            wave = int(line.role.split()[1])
            lines += [
                replace(
                    line,
                    group=f"pair {number}",
                    station=bar.bar,
                    athletes=(bar.wave_users[wave - 1].athlete,),
                    kit=(bar.bar,),
                )
                for number, bar in enumerate(bars, 1)
            ]
    return tuple(lines)


def _crowd_name(number: int, long_names: bool) -> str:
    first = ("Maximiliane", "Bartholomew", "Anastasiya", "Kwabena", "Chrysanthi")[number % 5]
    last = ("Featherstonehaugh-Oyelaran", "Wojciechowska-Baptiste", "Papadimitropoulou",
            "Fosuhene-Lund", "Vanderlinden-Achterberg")[(number // 5) % 5]  # fmt: skip
    if not long_names:
        return f"{first} {last.split('-')[0]} {number + 1}"
    return f"{first} {last} '{90 + number % 10:02d} (C{number + 1:02d})"
