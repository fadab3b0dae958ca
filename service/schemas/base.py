"""What all models of the contract share."""

from pydantic import BaseModel, ConfigDict


class Incoming(BaseModel):
    """Read strictly: no unknown fields, no numbers as text, no truth values as numbers, no NaN or infinity."""

    model_config = ConfigDict(
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        frozen=True,
        hide_input_in_errors=True,
        use_attribute_docstrings=True,
    )


class Outgoing(BaseModel):
    """Built by us, so checked once: a NaN or an unexpected field here is our fault and becomes a 500."""

    model_config = ConfigDict(
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        frozen=True,
        use_attribute_docstrings=True,
        json_schema_serialization_defaults_required=True,
    )
