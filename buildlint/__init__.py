"""buildlint: checks declarative engine build specs before parts are bought and bolts are torqued."""

__version__ = "0.1.0"
