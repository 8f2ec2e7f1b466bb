"""Words are looked up from the inside out; what is not written is computed; what cannot be had is None."""

import pytest
from specs_in_text import spec_of

SPRING = """
    rockers: {ratio: 1.7}
    intake:
      lobe: {lift: 0.353 in}
      spring: {installed_height: 1.800 in, seat_load: 150 lbf, rate: 410 lbf/in, solid_height: 1.120 in}
    exhaust:
      lobe: {lift: 0.340 in}
    """


def side(spec, name):
    return next(scope for scope in spec.sides if scope.name == name)


def test_a_written_word_is_found_in_its_scope_and_seen_from_outside():
    spec = spec_of(SPRING)
    assert side(spec, "intake").value("lobe_lift").data == pytest.approx(0.353 * 0.0254)
    assert spec.build.value("intake_lobe_lift") is side(spec, "intake").value("lobe_lift")
    assert spec.build.value("exhaust_lobe_lift").data == pytest.approx(0.340 * 0.0254)
    assert spec.build.value("lobe_lift") is None


def test_an_inner_scope_sees_the_words_of_the_outer_ones():
    assert side(spec_of(SPRING), "exhaust").value("rocker_ratio").data == 1.7


def test_inner_knowledge_wins():
    spec = spec_of("""
        pushrods: {length: 7.400 in}
        intake:
          pushrod: {length: 7.800 in}
        """)
    assert side(spec, "intake").value("pushrod_length").text == "7.800 in"
    assert side(spec, "exhaust").value("pushrod_length").text == "7.400 in"


def test_a_formula_gives_what_is_not_written_and_names_its_inputs():
    value = side(spec_of(SPRING), "intake").value("spring_open_load")
    assert value.formula.name == "spring_open_load__from_rate"
    assert value.data == pytest.approx((150 + 410 * 0.353 * 1.7) * 4.4482216152605)
    assert [leaf.pointer for leaf in value.leaves()] == [
        "/intake/spring/seat_load", "/intake/spring/rate", "/intake/lobe/lift", "/rockers/ratio"]


def test_a_written_value_beats_a_formula_and_the_computed_one_can_still_be_had():
    spec = spec_of(SPRING.replace("rate: 410 lbf/in,", "rate: 410 lbf/in, open_load: 380 lbf,"))
    intake = side(spec, "intake")
    assert intake.value("spring_open_load").text == "380 lbf"
    assert intake.value("spring_open_load_written").text == "380 lbf"
    assert intake.value("spring_open_load_computed").data == pytest.approx(396.04 * 4.4482216, rel=1e-4)


def test_a_word_that_cannot_be_had_is_none_and_stays_so():
    exhaust = side(spec_of(SPRING), "exhaust")
    assert exhaust.value("spring_open_load") is None
    assert exhaust.value("no_such_word") is None


def test_a_formula_outside_its_validity_has_no_answer():
    spec = spec_of("""
        intake:
          spring: {installed_height: 1.800 in, load_table: [[1.700 in, 150 lbf], [1.500 in, 268 lbf]]}
        """)
    assert side(spec, "intake").value("spring_seat_load") is None


LISTED = """
    engine: {cylinders: 4}
    block: {deck_height: [9.000 in, 9.001 in, 9.002 in, 9.003 in]}
    crank: {stroke: 3.000 in}
    rods: {length: 6.000 in}
    pistons: {compression_height: 1.490 in}
    """


def test_a_list_gives_each_cylinder_its_own_value_and_the_build_the_mean():
    spec = spec_of(LISTED)
    depth = spec.build.value("piston_below_deck")
    assert depth.data == pytest.approx(0.0115 * 0.0254)
    assert [round(element.data / 0.0254, 4) for element in depth.elements] == [0.010, 0.011, 0.012, 0.013]
    third = spec.build.at(("cylinder", ""), 3)
    assert third.value("piston_below_deck").data == pytest.approx(0.012 * 0.0254)
    assert third.value("rod_length").text == "6.000 in"
    assert third.label == ("cylinder 3",)


def test_smallest_largest_and_spread_are_taken_over_the_list():
    build = spec_of(LISTED).build
    assert build.value("piston_below_deck_smallest").data == pytest.approx(0.010 * 0.0254)
    assert build.value("piston_below_deck_largest").data == pytest.approx(0.013 * 0.0254)
    assert build.value("piston_below_deck_spread").data == pytest.approx(0.003 * 0.0254)
    assert build.value("rod_length_smallest").text == "6.000 in"
    assert build.value("rod_length_spread") is None


def test_what_was_measured_wins_over_the_plan_and_both_can_be_had():
    build = spec_of("block: {bore: {plan: 4.030 in +/- 0.001 in, measured: 4.0305 in, by: RM, on: 2026-03-02}}").build
    assert build.value("block_bore").text == "4.0305 in"
    assert build.value("block_bore_planned").data == pytest.approx(4.030 * 0.0254)
    assert build.value("block_bore_measured").data == pytest.approx(4.0305 * 0.0254)


def test_a_measured_list_with_a_plan_gives_the_build_the_plan_and_the_cylinders_the_measurement():
    build = spec_of("""
        engine: {cylinders: 2}
        heads: {chamber_volume: {plan: 70 cc, measured: [70.2 cc, 69.8 cc], by: RM, on: 2026-03-02}}
        """).build
    assert build.value("head_chamber_volume").text == "70 cc"
    assert [element.text for element in build.value("head_chamber_volume").elements] == ["70.2 cc", "69.8 cc"]


def test_nested_springs_add_up_each_at_its_own_height():
    """Outer 110 lbf at 1.800 in and 300 lbf/in, inner 40 lbf at 1.700 in and 110 lbf/in, 0.600 in lift: 150 and 396 lbf."""
    intake = side(spec_of("""
        rockers: {ratio: 1.7}
        intake:
          lobe: {lift: 0.3529411764705882 in}
          spring: {count: 2, installed_height: 1.800 in}
          springs:
            outer: {reference_height: 1.800 in, reference_load: 110 lbf, rate: 300 lbf/in, solid_height: 1.100 in}
            inner: {height_step: 0.100 in, reference_height: 1.700 in, reference_load: 40 lbf, rate: 110 lbf/in, solid_height: 1.050 in}
        """), "intake")
    pounds = 4.4482216152605
    assert intake.value("spring_seat_load").data == pytest.approx(150 * pounds)
    assert intake.value("spring_open_load").data == pytest.approx(396 * pounds)
    assert intake.value("spring_coil_bind_margin").data == pytest.approx(0.050 * 0.0254)


def test_scopes_are_called_as_in_speech():
    spec = spec_of("""
        bearings: {main: {clearance: 0.0025 in}}
        rings: {top: {end_gap: 0.020 in}}
        joints: {head: {torque: 70 lbf-ft}}
        """)
    build = spec.build
    assert build.value("main_bearing_clearance").text == "0.0025 in"
    assert build.value("top_ring_end_gap").text == "0.020 in"
    assert build.value("head_joint_torque").text == "70 lbf-ft"
    assert [scope.label for scope in spec.joints] == [("head joint",)]
    assert [scope.label for scope in spec.rings] == [("top ring",), ("second ring",), ("oil ring",)]


def test_a_rule_asked_for_one_cylinder_sees_the_smallest_and_each_of_all():
    build = spec_of("pistons: {below_deck: [0.010 in, 0.013 in]}\nrods: {length: 6.000 in}\n").build
    second = build.at(("cylinder", ""), 2)
    assert second.value("piston_below_deck_smallest").data == pytest.approx(0.010 * 0.0254)
    assert second.value("rod_length_largest").text == "6.000 in"
    assert second.value("piston_below_deck_each").data == pytest.approx([0.010 * 0.0254, 0.013 * 0.0254])


def test_a_zero_where_a_formula_divides_gives_no_answer_and_breaks_nothing():
    spec = spec_of("""
        block: {bore: 4.030 in, deck_height: 9.020 in}
        crank: {stroke: 0 in}
        rods: {length: 6.000 in}
        """)
    assert spec.build.value("rod_ratio") is None
