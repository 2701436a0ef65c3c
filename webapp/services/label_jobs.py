"""Large batches of labels, made beside the requests: with progress, a way to stop, and one file at the end."""

import shutil
import threading
import weakref
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import mkdtemp

from webapp.errors import NotFound, ShopError, TooMany
from webapp.services.recording import new_deed
from webapp.tags.labels import Stopped, to_png_zip, write_pdf
from webapp.tags.page import Label
from webapp.tags.sheets import Sheet

MOST_WAITING = 4
MOST_KEPT = 8
_WAIT_S = 20


@dataclass(slots=True)
class Job:
    """One batch. state: waiting, working, done, stopped or failed (`error` says why). `ending` is pdf or zip.

    `again`: the address at which it was chosen.
    """

    id: str
    labels: Sequence[Label]
    sheet: Sheet
    start_position: int
    ending: str
    path: Path
    again: str = ""
    done: int = 0
    state: str = "waiting"
    error: str = ""
    stop: threading.Event = field(default_factory=threading.Event)

    @property
    def total(self) -> int:
        """How many labels it makes."""
        return len(self.labels)

    @property
    def is_over(self) -> bool:
        """Whether nothing more will happen to it."""
        return self.state in ("done", "stopped", "failed")


class LabelJobs:
    """A queue of one batch at a time; each uses two cores itself. The newest few results are kept, in files."""

    def __init__(self) -> None:
        self._jobs: dict[str, Job] = {}
        self._lock = threading.Lock()
        self._pool = ThreadPoolExecutor(1, thread_name_prefix="labels")
        self._folder = Path(mkdtemp(prefix="rackside-labels-"))
        self._clean = weakref.finalize(self, shutil.rmtree, self._folder, ignore_errors=True)

    def start(self, labels: Sequence[Label], sheet: Sheet, start_position: int, ending: str, again: str = "") -> Job:
        """Queue a batch. Raises TooMany while enough are waiting."""
        with self._lock:
            if sum(not job.is_over for job in self._jobs.values()) >= MOST_WAITING:
                raise TooMany("Several batches are being made already. Stop one, or wait for it.", _WAIT_S)
            self._forget_oldest()
            job_id = new_deed()
            job = Job(job_id, labels, sheet, start_position, ending, self._folder / f"{job_id}.{ending}", again)
            self._jobs[job_id] = job
        self._pool.submit(_run, job)
        return job

    def get(self, job_id: str) -> Job:
        """Raises NotFound for one that is not kept any more."""
        job = self._jobs.get(job_id)
        if job is None:
            raise NotFound("This batch is not kept any more. Make it again.")
        return job

    def close(self) -> None:
        """Stop everything and remove the files."""
        for job in self._jobs.values():
            job.stop.set()
        self._pool.shutdown()
        self._clean()

    def _forget_oldest(self) -> None:
        over = [job for job in self._jobs.values() if job.is_over]
        for job in over[: max(0, len(over) - MOST_KEPT + 1)]:
            job.path.unlink(missing_ok=True)
            del self._jobs[job.id]


def _run(job: Job) -> None:
    def progress(done: int, _total: int) -> None:
        job.done = done
        if job.stop.is_set():
            raise Stopped

    try:
        if job.stop.is_set():
            raise Stopped
        job.state = "working"
        if job.ending == "pdf":
            with job.path.open("wb") as file:
                write_pdf(file, job.labels, job.sheet, job.start_position, progress)
        else:
            job.path.write_bytes(to_png_zip(job.labels, job.sheet.piece(), job.sheet.dpi, progress))
        job.state = "done"
    except Stopped:
        job.state = "stopped"
    except ShopError as error:
        job.state, job.error = "failed", str(error)
    except Exception as error:  # a thread has nobody to tell; the page does
        job.state, job.error = "failed", f"This is a fault of the program ({type(error).__name__}). Tell the owner."
    finally:
        if job.state != "done":
            job.path.unlink(missing_ok=True)
