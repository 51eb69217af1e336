"""What a planned job is sold at."""

from splitpin.pricing.quote import quote, refusal
from splitpin.pricing.risk import Spread

__all__ = ["Spread", "quote", "refusal"]
