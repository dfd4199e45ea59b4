"""A finding, put together by keyword."""

from squadwright.model.plan import Finding, Severity


def finding(
    rule: str,
    severity: Severity,
    sentence: str,
    *,
    advice: str,
    source: str,
    athlete: str | None = None,
    value: float | None = None,
    limit: float | None = None,
    unit: str = "",
) -> Finding:
    """A finding, by keyword; sentence and advice end in a full stop."""
    return Finding(
        rule=rule,
        athlete=athlete,
        severity=severity,
        sentence=f"{sentence.rstrip('.')}.",
        value=value,
        limit=limit,
        unit=unit,
        source=source,
        advice=f"{advice.rstrip('.')}.",
    )
