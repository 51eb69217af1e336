"""What a piece is sold at: the mark-up is counted on the cost, the margin on the price.

By hand: bought at 40 and sold at 60 is a mark-up of one half and a margin of one third; margin = u / (1 + u) and
u = m / (1 - m).
"""

from decimal import Decimal

from splitpin.records.charges import Goods
from splitpin.records.prices import Price

_HUNDRED = Decimal(100)


def margin_of(markup_percent: Decimal) -> Decimal:
    """The margin, in per cent of the price, that a mark-up (>= 0) in per cent of the cost comes to."""
    return _HUNDRED * markup_percent / (_HUNDRED + markup_percent)


def markup_of(margin_percent: Decimal) -> Decimal:
    """The mark-up, in per cent of the cost, that a margin (>= 0, < 100) in per cent of the price comes to."""
    return _HUNDRED * margin_percent / (_HUNDRED - margin_percent)


def markup_and_margin(goods: Goods) -> tuple[Decimal, Decimal]:
    """Both, in per cent, of which the firm gives one; nought where it gives none."""
    if goods.margin_percent is not None:
        return markup_of(goods.margin_percent), goods.margin_percent
    markup = goods.markup_percent or Decimal(0)
    return markup, margin_of(markup)


def selling(quantity: int, cost: Decimal, price: Price, goods: Goods) -> Decimal:
    """What `quantity` pieces are sold at, before tax and not yet rounded; `cost` buys `price.pack` of them."""
    bought = cost * quantity / price.pack
    if goods.margin_percent is not None:
        return bought * _HUNDRED / (_HUNDRED - goods.margin_percent)
    return bought * (_HUNDRED + (goods.markup_percent or 0)) / _HUNDRED
