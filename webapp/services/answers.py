"""Answers for the counter: what customers usually ask of one animal, from its profile and from its history here."""

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy.orm import Session

from webapp.services.panel import Panel
from webapp.services.ready import is_free_living, must_hold_by_itself
from webapp.services.thresholds import load_thresholds
from webapp.services.updating import get_row


@dataclass(frozen=True, slots=True)
class Answer:
    """One question by its code and the facts that answer it; sentences are made in `words.answers`."""

    code: str
    values: dict[str, Any] = field(default_factory=dict)


def answers(session: Session, panel: Panel, now: datetime) -> list[Answer]:
    """Every usual question about one animal, in the order in which they are asked."""
    kind, row, limits = panel.profile, get_row(session, panel.id), load_thresholds(session)
    used = {factor: (one.median, one.low, one.high) for factor, one in panel.used_to.items()}
    bands = {
        factor: (band.ideal_low, band.ideal_high, band.limit_low, band.limit_high)
        for factor, band in kind.bands.items()
    }
    cut = None if row.cut_at is None else (now - row.cut_at).total_seconds() / 86400
    last = row.checks[-1] if row.checks else {}
    return [
        Answer("easy", {"hardiness": kind.hardiness, "months": kind.min_tank_age_months}),
        Answer("place", {"placement": kind.placement, "here": panel.rack_name or panel.tank_name}),
        Answer("light", {"band": bands.get("par"), "used": used.get("par")}),
        Answer("flow", {"band": bands.get("flow"), "used": used.get("flow")}),
        Answer("distance", {"reach_cm": kind.sting_reach_cm, "stings": kind.stings, "aggression": kind.aggression,
                            "stung_easily": kind.stung_easily}),
        Answer("fish", {"nipped": _groups(kind.nipped_by), "catches": _groups(kind.catches)}),
        Answer("spread", {"adult_cm": kind.adult_cm, "size_mm": panel.size_mm}),
        Answer("feed", {"feeding": kind.feeding, "days": kind.feeding_days_per_week}),
        Answer("poison", {"note": kind.toxicity_note, "toxic": kind.toxic}),
        Answer("closed", {"days_since_cut": cut, "open": last.get("open"), "trouble": row.trouble,
                          "days_here": (now - row.started_at).total_seconds() / 86400}),
        Answer("hold_on", {"low": kind.attach_days[0], "high": kind.attach_days[1], "free": is_free_living(kind),
                           "by_itself": must_hold_by_itself(kind), "days_since_cut": cut,
                           "seen": row.holds_seen_at is not None}),
        Answer("cut_it", {"methods": kind.propagation_methods, "toxic": kind.toxic}),
        Answer("papers", {"cites": kind.cites, "papers": panel.papers, "origin": panel.origin}),
        Answer("dies", {"claim_h": limits["claim_shop_h"]}),
        Answer("origin", {"origin": panel.origin, "mother": panel.mother_name, "days": cut}),
        Answer("matters", {"requires": sorted(kind.requires)}),
    ]  # fmt: skip


def _groups(habits: dict[str, Any]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {"never": [], "risk": []}
    for group, severity in habits.items():
        found[severity].append(group)
    return found
