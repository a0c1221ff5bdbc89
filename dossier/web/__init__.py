"""From a Packet to a site: the only room that knows the site generator.

``mkdocs.yml`` names :data:`dossier.web.words.NOT_AN_APPROVAL`, so MkDocs imports this package while it reads
its configuration, before it loads the theme. The theme prints an announcement for authors of documentation
when it is loaded; it tells a builder nothing, and the variable below is the theme's own switch for it. A
value that the user has set stays.
"""

import os

os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
