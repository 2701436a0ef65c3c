"""Corals already in the tank: who reaches whom, and whether the gap can be had at all.

The gap from edge to edge must be the longer of the two reaches and a quarter of the larger grown size, unless the two
are of one genus, which may touch (common practice). A gap that moving the piece can give is close. Where it is more
than half of the tank's length and the piece would be reached, moving the piece alone need not give it: change first.
How aggressive a kind is shows in its reach; a kind that nothing stings (stung_easily 0) bears being reached.
"""

from collections import Counter
from dataclasses import replace

from webapp.fit.findings import Finding, Note, Verdict
from webapp.fit.judge import RANK
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Basis, Profile
from webapp.fit.tank import Neighbour

GROWTH_SHARE = 0.25
FAR_END_SHARE = 0.5
"""Of the tank's length: wherever the neighbour stands, half of the length is free to one side of it."""
NOTHING_STINGS = 0
_BASIS = Basis("common_practice", note="gap: the longer reach plus a quarter of the larger grown size")


def needed_gap_cm(a: Profile, b: Profile) -> float:
    """Clear gap, cm, between two kinds that both stay: symmetric in the two.

    Equation: the longer reach + a quarter of the larger grown size; 0 within one genus. Source: common practice.
    """
    if same_genus(a, b):
        return 0.0
    return max(a.sting_reach_cm, b.sting_reach_cm) + GROWTH_SHARE * max(a.adult_cm, b.adult_cm)


def same_genus(a: Profile, b: Profile) -> bool:
    """Whether they are one kind or one genus, by the first word of the scientific name."""
    return a.key == b.key or a.scientific.split()[0].strip(",") == b.scientific.split()[0].strip(",")


def judge_neighbours(prepared: PreparedTank, profile: Profile) -> Finding:
    """The worst pair; the gap to keep is the advice. Neighbours of one kind at one gap are told once, with `count`."""
    near = prepared.tank.neighbours
    if near is None:
        return Finding("neighbours", "not_known", (Note("neighbours_not_said"),), basis=(_BASIS,))
    if not near:
        return Finding("neighbours", "suits", (Note("no_neighbours"),), basis=(_BASIS,))
    pairs: list[tuple[Verdict, list[Note], list[Note]]] = []
    alike = Counter(sorted(near, key=lambda n: (n.key, n.gap_cm is not None, n.gap_cm or 0.0)))
    for neighbour, count in alike.items():
        other = prepared.kinds.get(neighbour.key)
        if other is None:
            unknown = [Note("neighbour_unknown", {"neighbour": neighbour.key})]
            pairs.append(("not_known", _with_count(unknown, count), []))
            continue
        verdict, reasons, advice = _pair(profile, other, neighbour, prepared.size.longest_cm)
        pairs.append((verdict, _with_count(reasons, count), advice))
    if profile.group != "anemone":
        pairs += _walkers(prepared)
    pairs.sort(key=lambda pair: -RANK[pair[0]])
    told = [note for _, notes, _ in pairs for note in notes]
    said = [note for _, _, notes in pairs for note in notes]
    return Finding("neighbours", pairs[0][0], tuple(told), basis=(_BASIS,), advice=_once(said))


def _walkers(prepared: PreparedTank) -> list[tuple[Verdict, list[Note], list[Note]]]:
    """Anemones in the tank, a kind each: where they stand today says little."""
    found: list[tuple[Verdict, list[Note], list[Note]]] = []
    for key, count in sorted(Counter(one.key for one in prepared.tank.neighbours or ()).items()):
        if key in prepared.kinds and prepared.kinds[key].group == "anemone":
            notes = _with_count([Note("walking_anemone_near", {"neighbour": key})], count)
            found.append(("close", notes, [Note("secure_anemone_first", {"neighbour": key})]))
    return found


def _with_count(notes: list[Note], count: int) -> list[Note]:
    return [replace(note, values={**note.values, "count": count}) for note in notes]


def _once(notes: list[Note]) -> tuple[Note, ...]:
    """Without those that say what one before them says."""
    return tuple(note for at, note in enumerate(notes) if note not in notes[:at])


def _pair(
    profile: Profile, other: Profile, neighbour: Neighbour, length_cm: float | None
) -> tuple[Verdict, list[Note], list[Note]]:
    if same_genus(profile, other):
        return "suits", [Note("same_kind_may_touch", {"neighbour": other.key})], []
    needed, gap = needed_gap_cm(profile, other), neighbour.gap_cm
    values = {"neighbour": other.key, "needed_cm": needed}
    if length_cm is not None and needed > length_cm:
        return "not_here", [Note("gap_longer_than_tank", {**values, "length_cm": length_cm})], []
    advice = [Note("keep_gap", values)]
    if length_cm is not None and needed > FAR_END_SHARE * length_cm:
        advice.append(Note("far_end", {**values, "length_cm": length_cm}))
    if gap is None:
        return "not_known", [Note("neighbour_gap_not_said", values)], advice
    if gap >= needed:
        return "suits", [Note("neighbour_gap_fine", {**values, "gap_cm": gap})], []
    reaches = _reaches(profile, other, gap)
    if not reaches:
        reach = max(profile.sting_reach_cm, other.sting_reach_cm)
        return "close", [Note("neighbour_grows_close", {**values, "gap_cm": gap, "reach_cm": reach})], advice
    if length_cm is None:
        return "not_known", reaches, advice
    harmed = any(note.code != "reach_borne" for note in reaches)
    return "change_first" if harmed and needed > FAR_END_SHARE * length_cm else "close", reaches, advice


def _reaches(profile: Profile, other: Profile, gap_cm: float) -> list[Note]:
    notes = []
    for stinger, victim, code in ((profile, other, "would_sting"), (other, profile, "would_be_stung")):
        if gap_cm < stinger.sting_reach_cm:
            values = {"neighbour": other.key, "gap_cm": gap_cm, "reach_cm": stinger.sting_reach_cm}
            notes.append(Note(code if victim.stung_easily > NOTHING_STINGS else "reach_borne", values))
    return notes
