"""`splitpin check` looks at what stands above reading, too: designations of joints and sizes of seals."""

import pytest

from splitpin.cli import check, exits
from splitpin.notices import Notice
from splitpin.records.catalogue import Seal
from splitpin.records.library import Library


def test_the_size_of_a_seal_is_checked(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    seal = Seal(id="lid-ring", title="lid O-ring", policy="renew", size="999", basis="from memory")

    def wrong() -> tuple[Library, tuple[Notice, ...]]:
        return Library(seals={seal.id: seal}), ()

    monkeypatch.setattr(check, "read_library", wrong)
    monkeypatch.setattr(check, "check_paths", lambda paths: ())
    with pytest.raises(SystemExit) as left:
        check.run([], as_json=False)
    assert left.value.code == exits.ERRORS
    assert "error[bad-designation]: in the size `999` of seal lid-ring" in capsys.readouterr().err
