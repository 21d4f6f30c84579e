"""The page on this machine's own address; an open one loads itself anew when it has changed."""

from __future__ import annotations

import errno
import threading
from contextlib import suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from pipeline.topic_files import PAGE

HOST = "127.0.0.1"
PORTS = range(65_536)
WAIT = 25  # seconds that a waiting page is kept before it asks again
# Added to what is served, never to the file: the page itself asks for nothing.
RELOAD = """<script>
(async function () {
  for (;;) {
    const answer = await fetch("/changed?" + %d).then((found) => found.text(), () => "");
    if (answer === "yes") return location.reload();
    if (!answer) await new Promise((then) => setTimeout(then, 1000));
  }
})();
</script></body>"""


NO_PAGE = "<html><body><p>No page yet: the terminal says why.</p></body></html>"


class Site:
    """Serves one file, and the check of its script; `changed` wakes every page that waits."""

    def __init__(self, page: Path, port: int) -> None:
        if port not in PORTS:
            raise OSError(errno.EINVAL, f"no number of a port (0 to {PORTS[-1]})")
        self.pages = {"/": page, f"/{page.name}": page, f"/{PAGE}": page.with_name(PAGE)}
        self.version, self.news = 0, threading.Condition()
        self.server = ThreadingHTTPServer((HOST, port), self._handler())
        self.server.daemon_threads = True
        self.address = f"http://{HOST}:{self.server.server_address[1]}/"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def changed(self) -> None:
        with self.news:
            self.version += 1
            self.news.notify_all()

    def wait(self, version: int) -> bool:
        """Has the page changed since this version, or does it within the waiting time?"""
        with self.news:
            return self.news.wait_for(lambda: self.version > version, WAIT)

    def close(self) -> None:
        self.server.shutdown()
        self.server.server_close()

    def _handler(self) -> type[BaseHTTPRequestHandler]:
        site = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                path, _, since = self.path.partition("?")
                if path == "/changed" and since.isdigit():
                    self._answer("yes" if site.wait(int(since)) else "no", "text/plain")
                elif path in site.pages:
                    version, page = site.version, site.pages[path]
                    html = page.read_text("utf-8") if page.is_file() else NO_PAGE
                    self._answer(html.replace("</body>", RELOAD % version), "text/html")
                else:
                    self.send_error(404)

            def _answer(self, text: str, kind: str) -> None:
                body = text.encode()
                self.send_response(200)
                self.send_header("Content-Type", f"{kind}; charset=utf-8")
                self.send_header("Content-Length", str(len(body)))
                self.send_header("Cache-Control", "no-store")
                with suppress(ConnectionError):  # the page that asked may be closed by now
                    self.end_headers()
                    self.wfile.write(body)

            def log_message(self, *_: object) -> None:
                """Nothing: the terminal is for the times and the mistakes."""

        return Handler
