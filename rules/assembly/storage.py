"""An engine that waits or travels: how it is kept, closed and sent."""

from buildlint.rulebook import *

MARK = "  # <-"
STORED = """
build: {stage: handover}
assembly:
  storage: {from: 2026-06-01, until: %s, place: %s, protected_by: [%s]%s}%s
"""
WHOLE = "fogged, ports_capped, bagged"


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The engine waits without what keeps rust and dirt out.",
    fix="Fog it, cap it, bag it dry, tag it, and write assembly.storage with from, until, place and protected_by.",
    source="common practice, no source; the engine maker's storage instructions win",
    points_at=("assembly_storage_protected_by", "assembly_storage_from"),
    conforming=(STORED % ("2026-07-01", "dry", WHOLE, ", tagged_on: 2026-06-01", ""), STORED % ("2026-06-05", "normal", "ports_capped", "", ""), """
        order:
          items:
            - {item: intake_manifold, quantity: 1, ordered_on: 2026-05-01, lead_time: 28 days, needed_by: 2026-06-01}
        """),
    nonconforming=(STORED % ("2026-07-15", "dry", "ports_capped", ", tagged_on: 2026-06-01", MARK),
                   STORED % ("2026-07-15", "humid", "fogged, ports_capped", ", tagged_on: 2026-06-01", MARK),
                   STORED % ("2026-07-15", "dry", WHOLE, "", MARK), STORED % ("2026-06-15", "normal", "ports_capped", "", MARK),
                   STORED % ("2026-05-20", "dry", WHOLE, "", MARK), """
        assembly: {steps: [{step: valley_tray_and_intake, needed_on: 2026-06-01}]}
        order:
          items:
            - {item: intake_manifold, quantity: 1, ordered_on: 2026-05-01, lead_time: 60 days, needed_for: valley_tray_and_intake}  # <-
        """, (STORED % ("2026-06-15", "dry", WHOLE, "", MARK)) + """
order:
  items:
    - {item: intake_manifold, quantity: 1, ordered_on: 2026-05-01, lead_time: 60 days, needed_by: 2026-06-01}
"""),
)
def storage_protects_the_engine(
    storage_time: Time = None, assembly_storage_from: Date = None, assembly_storage_until: Date = None, assembly_storage_protected_by: List = None,
    assembly_storage_place: Choice = None, assembly_storage_tagged_on: Date = None, longest_wait: Entries = None, *,
    bare: Time = q("7 days"), long: Time = q("30 days"), rockers_after: Time = q("90 days"), season: Time = q("180 days"),
):
    """Bare iron rusts in a week, an open cylinder in a damp month, and a dry engine that is cranked wipes its bearings.

    Asked of a storage that is written, and of a part that comes more than a week after its step: the engine waits for
    it, so it is kept, and the hand-over moves along. Fogged, it is left alone: whether a stored engine should be
    turned now and then is disputed, and a fogged one should not be.
    """
    written = assembly_storage_from is not None or assembly_storage_protected_by is not None
    wait = longest_wait
    if not written:
        if not wait or wait["days"] * 86400 <= bare:
            return not_applicable("nothing waits, as far as it is written")
        return require(False).at(f"order_lines_{wait['line']}").saying(
            "{what}", "Write assembly.storage from {wanted} until {ready}, with place, tagged_on and protected_by: fogged, ports_capped, "
                "oil_feeds_capped, bagged. The hand-over is not before {ready}.").telling(
            what=f"The engine waits {wait['days']} days for its {wait['item'].replace('_', ' ')}, and nothing says how it is kept meanwhile.",
            wanted=str(wait["wanted"]), ready=str(wait["ready"]))
    if storage_time is not None and storage_time < 0:
        return require(False).at("assembly_storage_until").saying("{what}", "{how}").telling(
            what=f"The storage ends on {assembly_storage_until}, before it begins.", how="Mend the date that is wrong.")
    if wait and assembly_storage_until is not None and wait["ready"] > assembly_storage_until:
        return require(False).at("assembly_storage_until").saying("{what}", "{how}").telling(
            what=f"The storage ends on {assembly_storage_until}, and the {wait['item'].replace('_', ' ')} is ready on {wait['ready']}.",
            how=f"Keep it protected until {wait['ready']}, and tell the customer the new day.")
    if storage_time is None or assembly_storage_protected_by is None:
        return wanting(*(word for word, value in (("assembly_storage_until", assembly_storage_until),
                                                  ("assembly_storage_protected_by", assembly_storage_protected_by)) if value is None)).saying("{what}", "{how}").telling(
            what="The storage does not say how long the engine waits and how it is protected.",
            how="Write how long it waits and what was done to it.")
    days, by = storage_time / 86400, set(assembly_storage_protected_by)
    lacks = []
    if storage_time > bare and not by & {"oil_film", "fogged", "vapor_inhibitor"}:
        lacks.append("an oil film or fogging")
    if storage_time > long:
        if not by & {"fogged", "vapor_inhibitor"}:
            lacks.append("fogged cylinders")
        if not by & {"bagged", "vapor_inhibitor"}:
            lacks.append("a bag")
        if assembly_storage_place in ("humid", "wet", "salt") and "heated_room" not in by:
            lacks.append(f"a dry or heated place ({assembly_storage_place} is written)")
        if assembly_storage_tagged_on is None:
            lacks.append("a tag with the day and 'dry: prime before turning'")
    if lacks:
        lacks = list(dict.fromkeys(lacks if "fogged cylinders" not in lacks else [part for part in lacks if part != "an oil film or fogging"]))
        return require(False).saying("{what}", "{how}").telling(what=f"The engine waits {days:.0f} days without {', '.join(lacks)}.",
                                      how="Fog the cylinders through the plug holes, close every opening, bag it dry, hang the tag, and write it down.")
    if storage_time > rockers_after and "rockers_backed_off" not in by:
        return require(False, "note").saying("{what}", "{how}").telling(
            what=f"The engine waits {days:.0f} days with its springs at work.", how="Back the rockers off, or accept that some springs set a little.")
    if storage_time > season:
        return require(False, "note").saying("{what}", "{how}").telling(
            what=f"The engine waits {days:.0f} days.", how="Look at bag and inhibitor every half year; do not turn an engine that is fogged.")
    return passes()


@rule(
    scope="build",
    level="error",
    due="handover",
    says="Ports stay open while the engine waits or travels.",
    fix="Cap every intake and exhaust port, breather, water and oil opening, and count the caps; add ports_capped.",
    source="common practice, no source",
    points_at=("assembly_storage_protected_by", "assembly_storage_from"),
    conforming=(STORED % ("2026-07-01", "dry", WHOLE, "", ""), "assembly: {steps: [{step: sign_off}]}\n"),
    nonconforming=(STORED % ("2026-07-01", "dry", "fogged, bagged", "", MARK), """
        build: {stage: handover}
        assembly:
          steps:
            - {step: store_or_ship}  # <-
        """, STORED % ("2026-06-05", "dry", "fogged", "", MARK)),
)
def open_ports_are_capped(
    storage_time: Time = None, assembly_storage_from: Date = None, assembly_storage_protected_by: List = None, steps_listed: List = None, *,
    short: Time = q("7 days"),
):
    """At least one exhaust valve always stands open: an open port is an open cylinder, for damp, mice and washers.

    A cap on the intake alone is half a job. Up to a week under cover it is only a warning.
    """
    ships = "store_or_ship" in (steps_listed or ())
    if assembly_storage_from is None and assembly_storage_protected_by is None and not ships:
        return not_applicable("it is neither stored nor shipped, as far as it is written")
    if assembly_storage_protected_by is None:
        where = "assembly_storage_from" if assembly_storage_from is not None else f"steps_listed_{steps_listed.index('store_or_ship') + 1}"
        return wanting("assembly_storage_protected_by").at(where).saying("{what}").telling(what="Nothing says that the ports are capped while the engine waits or travels.")
    if "ports_capped" in assembly_storage_protected_by:
        return passes()
    brief = storage_time is not None and storage_time <= short and not ships
    return require(False, "warning" if brief else None).saying("{what}").telling(what="The ports stay open while the engine waits.")


@rule(
    scope="build",
    level="reminder",
    due="handover",
    says="Before it travels: fluids drained, openings capped, held by its mounts and not by the pan, loose parts bagged and counted.",
    fix="Bolt the crate to the mounts and the bellhousing face, put the papers in a dry bag, tag it dry or filled; then sign.",
    source="common practice, no source",
    caution="Lift and crate it with rated gear from the proper points, and tell the carrier of oil or fuel that is left in it; rules for "
            "dangerous goods and local codes hold.",
    points_at=("assembly_storage_from",),
    conforming=(STORED % ("2026-07-01", "dry", WHOLE, "", ""), "build: {stage: handover}\nassembly: {steps: [{step: store_or_ship}]}\n"),
)
def engine_is_shipped_safely(assembly_storage_from: Date = None, steps_listed: List = None):
    """A crated engine rests on what it is bolted by; on its pan it arrives with the pickup against the floor."""
    if assembly_storage_from is None and "store_or_ship" not in (steps_listed or ()):
        return not_applicable("it is neither stored nor shipped, as far as it is written")
    return review()
