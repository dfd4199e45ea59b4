"""``squadwright formula``: list the published formulas, or compute one."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from squadwright.formulas.published import Formula


def formula(
    name: Annotated[
        str | None, typer.Argument(help="Name of a formula; leave out to list them all.")
    ] = None,
    values: Annotated[
        list[str] | None,
        typer.Argument(metavar="[KEY=VALUE]...", help="Inputs, for example load_kg=100."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON at full precision.")] = False,
) -> None:
    """List the published formulas, or compute one with its unit, valid range and source."""
    import json

    from squadwright.formulas.registry import all_formulas, find_formula

    if name is None:
        found = all_formulas().values()
        typer.echo(
            json.dumps([describe(entry) for entry in found], indent=2, ensure_ascii=False)
            if as_json
            else "\n".join(list_line(entry) for entry in found)
        )
        return
    chosen = find_formula(name)
    result = compute(chosen, values or [])
    typer.echo(
        json.dumps(result, indent=2, ensure_ascii=False) if as_json else result_text(chosen, result)
    )


def list_line(entry: "Formula") -> str:
    """Name, what it gives, unit and source on one line."""
    return f"{entry.name}: {entry.summary} [{entry.unit}] ({short_source(entry)})"


def short_source(entry: "Formula") -> str:
    """The first sources in a sentence, and how many more there are."""
    labels = [f"{source.label}, {source.provenance.value}" for source in entry.sources]
    more = f"; and {len(labels) - 2} more" if len(labels) > 2 else ""
    return "; ".join(labels[:2]) + more


def describe(entry: "Formula", inputs: dict[str, Any] | None = None) -> dict[str, Any]:
    """Everything known of a formula, as plain values; only the sources behind ``inputs``."""
    sources = entry.sources if inputs is None else entry.sources_behind(inputs)
    return {
        "name": entry.name,
        "gives": entry.summary,
        "unit": entry.unit,
        "valid_range": {
            parameter.name: {
                "meaning": parameter.meaning,
                "unit": parameter.unit,
                "text": parameter.rule.text,
                **parameter.rule.as_json(),
                **({} if parameter.is_required else {"default": parameter.default}),
            }
            for parameter in entry.parameters
        },
        "source": "; ".join(source.label for source in sources),
        "sources": [
            {"key": source.key, "citation": source.citation, "provenance": source.provenance.value}
            for source in sources
        ],
        "standard_error": entry.standard_error,
        "notes": entry.notes,
    }


def compute(chosen: "Formula", pairs: list[str]) -> dict[str, Any]:
    """The value of a formula with its inputs written as ``key=value``."""
    inputs = read_inputs(chosen, pairs)
    value = chosen.call(**inputs)
    cautions = [
        text for key, given in inputs.items() if (text := chosen.rules[key].warning(key, given))
    ]
    about = describe(chosen, inputs)
    recalled = [source for source in about["sources"] if source["provenance"] == "memory"]
    if recalled:
        cautions.append("from memory, not confirmed: an assumption the coach may change")
    return {
        "name": about.pop("name"),
        "value": value,
        "unit": about.pop("unit"),
        "inputs": inputs,
        "cautions": cautions,
        **about,
    }


def read_inputs(chosen: "Formula", pairs: list[str]) -> dict[str, Any]:
    """Read ``key=value`` pairs by the rules of the formula; refuse unknown and missing keys."""
    from squadwright.errors import InvalidInput

    known = {parameter.name: parameter for parameter in chosen.parameters}
    usage = f"{chosen.name} takes " + ", ".join(
        f"{parameter.name}=[{parameter.unit}]" + ("" if parameter.is_required else " (optional)")
        for parameter in chosen.parameters
    )
    inputs: dict[str, Any] = {}
    for pair in pairs:
        key, equals, text = pair.partition("=")
        if not equals:
            raise InvalidInput(pair, "is not of the form key=value", usage)
        if key not in known:
            raise InvalidInput(key, "is not an input of this formula", usage)
        if key in inputs:
            raise InvalidInput(key, "is given twice", "Give each input once")
        inputs[key] = known[key].rule.read(key, text)
    missing = [key for key, parameter in known.items() if parameter.is_required]
    missing = [key for key in missing if key not in inputs]
    if missing:
        raise InvalidInput(", ".join(missing), "is missing", usage)
    return inputs


def result_text(chosen: "Formula", result: dict[str, Any]) -> str:
    """The result for reading: value, unit, valid range, source, cautions."""
    unit = "" if chosen.unit == "1" else f" {chosen.unit}"
    lines = [
        chosen.summary,
        f"  value        {result['value']:.6g}{unit}",
    ]
    if chosen.standard_error is not None:
        lines.append(f"  error        {chosen.standard_error:g}{unit} (standard error of estimate)")
    for parameter in chosen.parameters:
        shown = "" if parameter.unit == "1" else f" {parameter.unit}"
        lines.append(f"  valid range  {parameter.name}: {parameter.rule.text}{shown}")
    lines += [f"  source       {source['citation']}" for source in result["sources"]]
    lines.append(f"  notes        {chosen.notes}")
    lines += [f"  caution      {caution}" for caution in result["cautions"]]
    return "\n".join(lines)
