"""The launcher's own server: JupyterLab that reads no configuration but ours, and says in plain words where it is.

Its token is random, stays in this process, and stands in the address line. Only errors are logged.
"""

import asyncio
import secrets
import signal

from jupyter_client.kernelspec import KernelSpecManager
from jupyter_server.serverapp import ServerApp
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager, ServerKernelManager
from jupyterlab.labapp import LabApp

ENABLED = {"jupyterlab": True, "jupyter_lsp": True, "jupyter_server_terminals": True}
SIGNALS = {signal.SIGINT, signal.SIGTERM}
GRACE = 1.0  # seconds in which a kernel that has just finished can say so


class OwnKernel(KernelSpecManager):
    """One kernel, that of the Python which runs this."""

    def _kernel_dirs_default(self):
        return []  # what is left is ipykernel's own


class OwnKernels(AsyncMappingKernelManager):
    """All kernels; before one is stopped, word that it is idle may still arrive (the server listens no longer after that)."""

    async def _async_shutdown_kernel(self, kernel_id, now=False, restart=False):
        end = asyncio.get_running_loop().time() + GRACE
        while self.get_kernel(kernel_id).execution_state != "idle" and asyncio.get_running_loop().time() < end:
            await asyncio.sleep(0.02)
        return await super()._async_shutdown_kernel(kernel_id, now=now, restart=restart)

    shutdown_kernel = _async_shutdown_kernel


class OwnManager(ServerKernelManager):
    """What starts and stops a kernel: at the end an idle one is asked to stop and not interrupted, which it would report as an error."""

    async def _async_interrupt_kernel(self):
        if not self.shutting_down or getattr(self, "execution_state", "busy") == "busy":
            await super()._async_interrupt_kernel()

    interrupt_kernel = _async_interrupt_kernel


class Server(ServerApp):
    """The server; files of the machine or of the user that would configure one are not read."""

    _ending = False

    @property
    def config_file_paths(self):
        """Nowhere."""
        return []

    @property
    def address(self):
        """Where a browser finds the first page, with the token."""
        return f"http://{self.ip}:{self.port}{self.default_url}?token={self.identity_provider.token}"

    def start_app(self):
        """Say where it is, and start."""
        print(f"Open this address: {self.address}", flush=True)
        print("To stop, press Ctrl+C in this window.", flush=True)
        super().start_app()

    def init_signal(self):
        """Ctrl+C ends it, and so does the system."""
        for number in SIGNALS:
            signal.signal(number, self._end)

    def _end(self, number, frame):
        first, self._ending = not self._ending, True
        words = "Stopping ..." if first else "Still stopping, a moment ..."
        self.io_loop.add_callback_from_signal(print, words, flush=True)
        if first:
            self.stop(from_signal=True)


class Workbook(LabApp):
    """JupyterLab in that server."""

    serverapp_class = Server
    serverapp_config = {"open_browser": True, "jpserver_extensions": ENABLED}  # noqa: RUF012 (as its base has it)

    @property
    def config_file_paths(self):
        """Nowhere."""
        return []


def serve(line):
    """Run the server with a command line (list of text) until it is stopped."""
    own = [
        f"--IdentityProvider.token={secrets.token_hex(24)}",  # a list in memory: no other process sees it
        f"--ServerApp.kernel_spec_manager_class={OwnKernel.__module__}.{OwnKernel.__name__}",
        f"--ServerApp.kernel_manager_class={OwnKernels.__module__}.{OwnKernels.__name__}",
        f"--MappingKernelManager.kernel_manager_class={OwnManager.__module__}.{OwnManager.__name__}",
    ]
    Workbook.launch_instance(argv=[*line, *own])
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # one press too many
    print("Stopped.", flush=True)
