"""What the search index reads of a page. Nothing here changes how a page looks."""

from __future__ import annotations

import re

_BLOCKS = "caption|dd|div|dt|figcaption|label|section|summary|td|th"
_EDGE = re.compile(
    rf"(?<=\S)(?=<(?:{_BLOCKS})\b)"  # before a block
    rf"|(</(?:{_BLOCKS})>)(?=[^\s<]|<(?!/|(?:{_BLOCKS})\b))",  # after a block, if no other follows
    re.IGNORECASE,
)
_SVG = re.compile(r"<svg\b", re.IGNORECASE)


def ready_for_search(html: str) -> str:
    """Keep neighbouring cells and blocks apart, and the lettering of drawings out of the index.

    The index takes the text of a page without its elements, so ``<td>58</td><td>53</td>`` would become
    ``5853``; the lettering of a drawing says nothing without its place. The attribute is the search plugin's
    own, which takes it out again.
    """
    return _SVG.sub('<svg data-search-exclude="drawing"', _EDGE.sub(r"\1 ", html))
