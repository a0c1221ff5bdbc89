"""The door to MkDocs: pages go in as files in memory, nothing is written under ``docs_dir``."""

from __future__ import annotations

import logging
from typing import Any, Literal

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page as SitePage

from dossier.compose.packet import Packet
from dossier.findings import Rejected
from dossier.web.addresses import faults
from dossier.web.findings_page import findings_packet
from dossier.web.identity import css_string, running_identity
from dossier.web.inspection import Inspection, inspect
from dossier.web.links import dead_links, to_built_pages
from dossier.web.navigation import navigation, words_page
from dossier.web.options import Choice, DossierOptions, chosen
from dossier.web.search_text import ready_for_search
from dossier.web.tables import with_table_regions
from dossier.web.theme_files import keep_needed

_log = logging.getLogger(f"mkdocs.plugins.{__name__}")


class DossierPlugin(BasePlugin[DossierOptions]):  # type: ignore[no-untyped-call] # as in options
    """Publishes one serial's packet."""

    packet: Packet | None = None
    """Set by :func:`dossier.web.build.build_site`; else the plugin makes the packet from its options."""
    _serving = False
    _shown: Packet
    _read: dict[str, Inspection]

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:  # noqa: ARG002 - MkDocs names them
        """Remember whether a refused record may be shown as a page; MkDocs then keeps this object."""
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Take the packet and tell the theme its identity and its order of sheets."""
        self._shown = packet = self.packet or self._packet_of(self._choice(config))
        self._read = {}
        if found := faults(packet):
            raise PluginError("\n".join(found))
        config.nav = navigation(packet.pages)
        config.extra["title_block"] = packet.title_block
        config.extra["words_page"] = words_page(packet.pages)
        config.extra["running_identity"] = running_identity(packet.title_block)
        config.site_name = f"{packet.title_block.type_name} {packet.title_block.serial_number}"
        config.theme["language"] = packet.title_block.language
        config.theme.static_templates.clear()  # a sitemap and an error page are of no use on a memory stick
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add pages and assets; leave out what the theme brings and no page needs."""
        keep_needed(files, config)
        # blank line in front: MkDocs would take a first line such as "Status: open" for settings of the page
        content_of: dict[str, str | bytes] = {page.path: f"\n{page.text}" for page in self._shown.pages}
        content_of |= {asset.path: asset.content for asset in self._shown.assets}
        apart = {page.path for page in self._shown.pages if not page.in_contents}
        for path, content in content_of.items():
            if files.get_file_from_path(path) is not None:
                raise PluginError(f"{path!r} is a file of the site's frame; choose another path")
            inclusion = InclusionLevel.NOT_IN_NAV if path in apart else InclusionLevel.INCLUDED
            files.append(File.generated(config, path, content=content, inclusion=inclusion))
        return files

    def on_page_content(self, html: str, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002 - MkDocs names them
        """Finish a page's HTML and read it."""
        if page.file.inclusion is InclusionLevel.NOT_IN_NAV:
            page.meta["search"] = {"exclude": True}  # the search plugin's own word
        finished = ready_for_search(with_table_regions(to_built_pages(html)))
        self._read[page.file.dest_uri] = inspect(finished)
        return finished

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:  # noqa: ARG002 - MkDocs names them
        """Refuse what may not stand on a page, once all are read; give the templates their filter."""
        for fault in dead_links(self._read, {file.dest_uri for file in files}):
            _log.warning(fault)
        if refused := [f"{name}: {what}" for name, read in self._read.items() for what in read.refused]:
            raise PluginError("\n".join(refused))
        env.filters["css_string"] = css_string
        return env

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Any) -> LiveReloadServer:  # noqa: ARG002 - MkDocs names them
        """Build again when the record changes."""
        server.watch(str(self._choice(config).project))
        return server

    def _choice(self, config: MkDocsConfig) -> Choice:
        return chosen(self.config, config.config_file_path)

    def _packet_of(self, choice: Choice) -> Packet:
        # Imported here: the pipeline brings the numerical libraries along, and build_site, which has its
        # packet already, must not wait for them.
        from dossier.web.record_packet import packet_for

        try:
            return packet_for(choice.project, choice.serial, choice.as_of)
        except Rejected as rejected:
            if self._serving:
                return findings_packet(choice.project.name, rejected)
            findings = "\n\n".join(map(str, rejected.findings))
            raise PluginError(f"the record was refused\n\n{findings}") from rejected
