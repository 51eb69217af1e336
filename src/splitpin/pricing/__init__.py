"""What a planned job is sold at."""

from splitpin.pricing.estimated import Estimated
from splitpin.pricing.quote import quote, refusal

__all__ = ["Estimated", "quote", "refusal"]
