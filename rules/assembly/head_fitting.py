"""The order of work at the head joint."""

from buildlint.rulebook import *

STEPS = """
head_gasket: {kind: multilayer_steel}
assembly:
  steps:
    - {step: dowels}
    - {step: %s}
    - {step: %s}  %s
"""


@rule(
    scope="step",
    level="warning",
    due="assembly",
    says="The studs are set before the multilayer gasket lies on its dowels.",
    fix="Dowels, then gasket, then studs by hand; or write why the order differs under because.",
    source="common practice, no source; many builders do it the other way round",
    when={"step": ("head_gasket",), "head_gasket_kind": ("multilayer_steel",)},
    points_at=("step",),
    conforming=(STEPS % ("head_gasket", "head_studs", ""), """
        head_gasket: {kind: multilayer_steel}
        assembly:
          steps:
            - {step: dowels}
            - {step: head_studs}
            - {step: head_gasket, because: engine stays in the car and the head comes from above}
        """),
    nonconforming=STEPS % ("head_studs", "head_gasket", "# <-"),
)
def gasket_precedes_the_studs(step: Text, earlier_steps: List, because: Text = None):
    """A multilayer gasket lowered over standing studs scrapes its coating and kinks its beads on the threads.

    Composite gaskets mind less. Where the head must come down over the studs the other order is right; say so.
    """
    return require("head_studs" not in earlier_steps or because is not None)
