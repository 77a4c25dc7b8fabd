"""Who still calls at a port whose server is gone."""

import socket
import threading
from types import TracebackType


class Callers:
    """Listens where a killed server listened, writes down what every caller asks for, and hangs up without a word.

    To the browser that is a network that leads nowhere; here it shows every request that left the page. A connection on
    which nothing is ever asked (browsers open some ahead of need) is written down as "".
    """

    def __init__(self, port: int) -> None:
        self._socket = socket.create_server(("127.0.0.1", port))
        self._lines: list[str] = []
        self._lock = threading.Lock()
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def __enter__(self) -> "Callers":
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self._socket.shutdown(socket.SHUT_RDWR)
        self._thread.join(10)
        self._socket.close()

    @property
    def asked(self) -> list[str]:
        """The paths asked for so far, in their order."""
        with self._lock:
            return list(self._lines)

    def _listen(self) -> None:
        while True:
            try:
                caller, _ = self._socket.accept()
            except OSError:
                return
            threading.Thread(target=self._hear, args=(caller,), daemon=True).start()

    def _hear(self, caller: socket.socket) -> None:
        with caller:
            caller.settimeout(5)
            try:
                said = caller.recv(4096).decode("latin-1").split("\r\n")[0]
            except OSError:
                said = ""
            with self._lock:
                self._lines.append(said.split(" ")[1] if said.count(" ") == 2 else said)
