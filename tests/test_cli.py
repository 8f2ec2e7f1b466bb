"""The commands: what they print where, with which exit status, on every kind of terminal, pipe and disk."""

import json
import os
import pty
import re
import signal
import subprocess
import sys
import time
from pathlib import Path
from types import SimpleNamespace

import pytest

import buildlint
from buildlint import cli, commands, deliver, gather
from buildlint.model import FAIL, OPEN, PASS, REVIEW, Finding, Place, Report
from buildlint.render import FORMATS

ROOT = Path(__file__).parent.parent
SPEC = "build: {name: street \u2033, stage: planning}\nengine: {bore: 4.030 in}\n"
ENVIRONMENT = {key: value for key, value in os.environ.items() if key not in (
    "COLUMNS", "NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "FORCE_COLOR", "LC_ALL", "PYTHONIOENCODING", "PYTHONUTF8")}
ENVIRONMENT |= {"PYTHONPATH": str(ROOT), "TERM": "xterm-256color", "LANG": "C.UTF-8"}


def program(*arguments, folder=ROOT, options=(), input=None, **environment):
    """Run the program as a process of its own."""
    return subprocess.run(
        [sys.executable, *options, "-m", "buildlint", *map(str, arguments)], cwd=folder, capture_output=True, timeout=60,
        input=input, stdin=None if input is not None else subprocess.DEVNULL, env={**ENVIRONMENT, **environment})


def shell(line, folder, **environment):
    """Run a line of bash in which ``buildlint`` is the program."""
    start = f'buildlint() {{ "{sys.executable}" -m buildlint "$@"; }}; '
    return subprocess.run(["bash", "-c", start + line], cwd=folder, capture_output=True, timeout=60,
                          stdin=subprocess.DEVNULL, env={**ENVIRONMENT, **environment})


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "street.yaml").write_text(SPEC, encoding="utf-8")
    return tmp_path


def finding(level="error", kind=FAIL, **more):
    return Finding("a-rule", "general", kind, level if kind == FAIL else "none", (), "It does not fit.",
                   place=Place("street.yaml", 1, 1, 1, 2), **more)


class StandIn(SimpleNamespace):
    """A road that says what a test wants it to say."""

    CannotStart = type("CannotStart", (Exception,), {"holds_up_others": False})
    StandardNotSound = CannotStart

    def __init__(self, *findings, crashed=(), **more):
        super().__init__(asked=[], **more)
        self.findings, self.crashed = findings, crashed

    def rules(self):
        return []

    def take_rules_from(self, folders):
        pass

    def standard_for(self, path):
        raise self.StandardNotSound("no shop is about")

    def check(self, path, given_name=None, text=None, stage=None, known=None, detail=True, advice=True):
        self.asked.append((path, given_name, text, stage))
        if "unreadable" in path:
            raise self.CannotStart(f"{path}: cannot be read")
        return Report(path, "", stage or "planning", self.findings, self.crashed)


@pytest.fixture
def road(monkeypatch):
    def put_in_place(*findings, **more):
        stand_in = StandIn(*findings, **more)
        monkeypatch.setitem(sys.modules, "buildlint.road", stand_in)
        monkeypatch.setattr(buildlint, "road", stand_in, raising=False)
        return stand_in

    return put_in_place


# -- exit status -----------------------------------------------------------------------------------------

PERMITTED = finding(permit={"because": "on the shelf"})


@pytest.mark.parametrize(("findings", "level", "status"), [
    ((), "warning", 0), ((finding(),), "warning", 1), ((finding("warning"),), "warning", 1),
    ((finding("note"),), "warning", 0), ((finding("note"),), "note", 1), ((finding("warning"),), "error", 0),
    ((finding(),), "error", 1), ((finding(kind=OPEN),), "note", 0), ((finding(kind=REVIEW),), "note", 0),
    ((finding(kind=PASS),), "note", 0), ((PERMITTED,), "note", 0), ((PERMITTED, finding("note")), "note", 1),
], ids=["nothing", "error", "warning", "note below the level", "note at the level", "warning below the level",
        "error at the level", "open", "to be signed", "good", "permitted", "permitted beside a note"])
@pytest.mark.parametrize("form", FORMATS)
def test_the_exit_status_follows_the_level(folder, road, findings, level, status, form):
    road(*findings)
    assert cli.run(["check", "street.yaml", "--level", level, "--format", form]) == status


def test_the_level_is_warning_unless_told_otherwise(folder, road):
    road(finding("warning"))
    assert cli.run(["check", "street.yaml"]) == 1


def test_a_rule_that_broke_down_makes_it_incomplete(folder, road):
    road(finding(), crashed=("odd-rule",))
    assert cli.run(["check", "street.yaml"]) == 3


def test_what_cannot_be_read_wins_over_a_broken_rule_and_hides_nothing(folder, road, capsys):
    (folder / "unreadable.yaml").touch()
    stand_in = road(finding(), crashed=("odd-rule",))
    assert cli.run(["check", "unreadable.yaml", "street.yaml"]) == 2
    out, err = capsys.readouterr()
    assert [asked[0] for asked in stand_in.asked] == ["street.yaml", "unreadable.yaml"]
    assert "It does not fit." in out and err == "buildlint: unreadable.yaml: cannot be read\n"


def test_an_output_that_fails_wins_over_findings(folder, road, capsys):
    road(finding())
    assert cli.run(["check", "street.yaml", "--format", "terminal", "--format", "json:nowhere/report.json"]) == 3
    out, err = capsys.readouterr()
    assert "It does not fit." in out
    assert err == "buildlint: nowhere/report.json: there is no folder nowhere; make it first, or write elsewhere\n"


def test_a_broken_rule_set_is_told_before_anything_is_read(folder, road, capsys):
    stand_in = road()

    def refuse():
        raise stand_in.CannotStart("rules/joints/torque.py: rule x: a source is needed")

    stand_in.rules = refuse
    assert cli.run(["check", "street.yaml"]) == 2
    assert capsys.readouterr() == ("", "buildlint: rules/joints/torque.py: rule x: a source is needed\n")


def test_a_fault_of_the_program_itself_is_no_finding_and_no_traceback(folder, road, capsys):
    stand_in = road()
    stand_in.check = lambda *_, **__: 1 // 0
    assert cli.run(["check", "street.yaml"]) == 3
    err = capsys.readouterr().err
    assert "buildlint itself broke down (ZeroDivisionError" in err and "Traceback" not in err


def test_the_trace_of_a_fault_is_there_for_the_asking(folder, road, capsys, monkeypatch):
    monkeypatch.setenv("BUILDLINT_TRACE", "1")
    road().check = lambda *_, **__: 1 // 0
    assert cli.run(["check", "street.yaml"]) == 3
    assert "Traceback" in capsys.readouterr().err


def test_interrupting_leaves_no_half_file(folder, road):
    def interrupt(*_, **__):
        raise KeyboardInterrupt

    road().check = interrupt
    (folder / "report.json").write_text("old")
    assert cli.run(["check", "street.yaml", "--format", "json:report.json"]) == 130
    assert sorted(os.listdir()) == ["report.json", "street.yaml"]
    assert (folder / "report.json").read_text() == "old"


def test_ctrl_c_ends_a_run_at_once_and_quietly(folder, hears_ctrl_c):
    process = subprocess.Popen([sys.executable, "-m", "buildlint", "check", "-"], stdin=subprocess.PIPE,
                               stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=ENVIRONMENT, cwd=folder, preexec_fn=hears_ctrl_c)
    time.sleep(1.5)
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=5)
    assert (process.returncode, out, err) == (130, b"", b"")


# -- what is asked of the road ---------------------------------------------------------------------------


def test_the_stage_is_handed_on(folder, road):
    stand_in = road()
    cli.run(["check", "street.yaml", "--stage", "mock_up"])
    assert stand_in.asked == [("street.yaml", None, None, "mock_up")]


def test_standard_input_is_read_under_its_given_name(folder):
    run = program("check", "-", "--name", "builds/draft.yaml", "--format", "lines", input=SPEC.encode(), folder=folder)
    assert run.returncode == 1
    assert re.match(rb"builds/draft.yaml:2:\d+: error: key-is-known: ", run.stdout)


def test_standard_input_without_a_name_is_a_dash(folder):
    run = program("check", "-", "--format", "lines", input=SPEC.encode(), folder=folder)
    assert run.stdout.startswith(b"-:2:")


@pytest.mark.parametrize(("arguments", "told"), [
    (["check"], "Missing argument 'PATH...'"),
    (["check", "nowhere.yaml"], "nowhere.yaml: there is no such file or folder"),
    (["check", "street.yaml", "--name", "x.yaml"], "--name goes with standard input"),
    (["check", "street.yaml", "--format", "lines", "--format", "json"], "only one format can go to standard output"),
    (["check", "street.yaml", "--format", "json:a", "--format", "lines:./a"], "two outputs name the same file"),
    (["check", "street.yaml", "--format", "json:./street.yaml"], "is a spec; it would be overwritten"),
    (["check", "street.yaml", "--format", "json:"], "a file name is missing"),
    (["check", "street.yaml", "--format", "jsn"], "Did you mean json?"),
    (["check", "street.yaml", "--fromat", "json"], "Did you mean '--format'?"),
    (["check", "street.yaml", "--most", "0"], "x>=1"),
    (["check", "street.yaml", "--stage", "mockup"], "Did you mean mock_up?"),
    (["check", "street.yaml", "--stage", "mock-up"], "Did you mean mock_up?"),
    (["check", "street.yaml", "--level", "warn"], "warn is none of error, warning and note. Did you mean warning?"),
    (["street.yaml"], "To check a spec: buildlint check street.yaml"),
    (["nowhere/new.yml"], "To check a spec: buildlint check nowhere/new.yml"),
    (["known", "empty", "--file", "known.json"], "no spec was found there"),
    (["check", "street.yaml", "--changed", "nowhere.diff"], "nowhere.diff: there is no such file"),
    (["sweep", "street.yaml", "--vary", "rockers.ratio=1.6,many"], "rockers.ratio: `many` does not begin with a number"),
    (["sweep", "street.yaml", "--vary", "rockers.part=all"], "there is no catalogue to take parts from"),
    (["chekc", "street.yaml"], "Did you mean check?"),
    (["check", "empty"], "no spec was found there"),
    (["explain", "spring_coil_bind_margn"], "Did you mean spring_coil_bind_margin"),
    (["rules", "--scope", "sid"], "Did you mean side?"),
    (["words", "--scope", "joints"], "Did you mean joint?"),
    (["words", "nonsense"], "no word has nonsense in it"),
    (["begin", "street.yaml"], "it is left as it is"),
    (["begin", "--duty", "strret"], "Did you mean street?"),
])
def test_what_cannot_be_done_is_told_with_the_remedy(folder, capsys, arguments, told):
    (folder / "empty").mkdir()
    assert cli.run(arguments) == 2
    out, err = capsys.readouterr()
    assert out == "" and told in err
    assert (folder / "street.yaml").read_text(encoding="utf-8") == SPEC


def test_work_of_more_than_a_second_tells_on_a_terminal_how_far_it_is(monkeypatch):
    now, written = [0.0], []
    terminal = SimpleNamespace(isatty=lambda: True, write=written.append, flush=lambda: None)
    monkeypatch.setattr(sys, "stderr", terminal)
    tell = commands.Progress("checking {number} of {count} specs", clock=lambda: now[0])
    for number, now[0] in ((0, 0.5), (7, 1.1), (8, 1.2), (9, 1.4), (1200, 9.0)):
        tell(number, 1200)
    assert written == ["\rchecking 7 of 1,200 specs\r", "\rchecking 9 of 1,200 specs\r", f"\r{' ' * 25}\r"]
    del written[:]
    quick = commands.Progress("checking {number} of {count} specs", clock=lambda: now[0])
    quick(3, 4), quick(4, 4)
    terminal.isatty, now[0] = lambda: False, 99.0
    quick(3, 4)
    assert written == []


def test_operands_on_the_command_line_cannot_steer_the_terminal(folder, capsys):
    assert cli.run(["check", "a\x1b[2Jb\nc"]) == 2
    assert capsys.readouterr().err == "buildlint: a\\x1b[2Jb\\nc: there is no such file or folder\n"


# -- which files -----------------------------------------------------------------------------------------


def plant(folder, *paths):
    for path in paths:
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(SPEC, encoding="utf-8")


def test_a_folder_is_searched_for_specs_in_a_fixed_order(folder):
    plant(folder, "b/z.yml", "b/a.yaml", "b/shop.yaml", "b/notes.txt", "b/.hidden.yaml", "b/.git/x.yaml",
          "b/catalogue/springs.yaml", "b/deep/templates/t.yaml", "b/deep/er/c.yaml", "b-c.yaml")
    specs, left_out = gather.gather(["."])
    assert specs == ["b/a.yaml", "b/deep/er/c.yaml", "b/z.yml", "b-c.yaml", "street.yaml"]
    assert left_out == 3


def test_a_folder_that_is_named_is_searched_whatever_its_name(folder):
    plant(folder, "templates/t.yaml", "templates/templates/u.yaml")
    assert gather.gather(["templates"]) == (["templates/t.yaml"], 1)


def test_a_file_that_is_named_is_a_spec_whatever_its_name(folder):
    plant(folder, "templates/t.yaml", "shop.yaml", "spec.txt")
    assert gather.gather(["templates/t.yaml", "shop.yaml", "spec.txt"])[0] == ["shop.yaml", "spec.txt", "templates/t.yaml"]


def test_the_order_and_the_writing_of_operands_make_no_difference(folder):
    plant(folder, "b/a.yaml", "b/c.yaml")
    assert gather.gather(["b", "street.yaml", "./b/a.yaml"]) == gather.gather(["./street.yaml", "b/c.yaml", "b/"])


def test_links_to_folders_are_not_followed(folder):
    plant(folder, "b/a.yaml")
    (folder / "b/round").symlink_to(folder / "b")
    assert gather.gather(["b"])[0] == ["b/a.yaml"]


def test_what_was_left_out_of_a_folder_is_told(folder, road, capsys):
    plant(folder, "shop.yaml", "templates/t.yaml")
    road()
    assert cli.run(["check", "."]) == 0
    assert capsys.readouterr().err == "buildlint: 2 files left out: templates, catalogue parts and shop standards\n"


# -- what stands where -----------------------------------------------------------------------------------


def test_machine_output_stands_alone_on_standard_output(folder):
    (folder / "shop.yaml").write_text("shop: Hollow Creek Engine Works\n", encoding="utf-8")
    run = program("check", ".", "--format", "json", folder=folder)
    assert json.loads(run.stdout)["specs"][0]["path"] == "street.yaml"
    assert b"left out" in run.stderr


def test_lines_leave_the_counts_to_standard_error(folder, road, capsys):
    road(finding(), finding("note"), finding(kind=OPEN))
    cli.run(["check", "street.yaml", "--format", "lines"])
    out, err = capsys.readouterr()
    assert out.count("\n") == 2
    assert err == "buildlint: 1 error and 1 note; 1 still open.\n"


def test_several_formats_go_to_their_files_in_one_run(folder, road, capsys):
    road(finding())
    plant(folder, "b.yaml")
    assert cli.run(["check", ".", "--format", "json:r.json", "--format", "lines:r.txt", "--format", "terminal:r.sheet"]) == 1
    out, err = capsys.readouterr()
    assert out == "" and err == "buildlint: 2 specs: 2 errors.\n"
    assert len(json.loads(Path("r.json").read_text())["specs"]) == 2
    assert Path("r.txt").read_text().count("\n") == 2
    assert "All 2 specs together: 2 errors." in Path("r.sheet").read_text()


@pytest.mark.parametrize("form", FORMATS)
def test_a_file_holds_what_the_screen_would_show(folder, form):
    shown = program("check", "street.yaml", "--format", form, folder=folder)
    program("check", "street.yaml", "--format", f"{form}:out", folder=folder)
    assert Path("out").read_bytes() == shown.stdout


@pytest.mark.parametrize("form", FORMATS)
def test_the_same_input_gives_the_same_bytes(folder, form):
    plant(folder, "b/a.yaml", "b/c.yaml")
    told = {
        program("check", *operands, "--format", form, folder=folder, PYTHONHASHSEED=seed).stdout
        for seed, operands in (("0", ["b", "street.yaml"]), ("1", ["street.yaml", "b"]),
                               ("random", ["./street.yaml", "b/c.yaml", "b/a.yaml"]))}
    assert len(told) == 1 and told.pop()


@pytest.mark.parametrize("command", [[], ["check"], ["explain"], ["rules"], ["words"], ["begin"]], ids=" ".join)
def test_help_has_an_example_and_goes_to_standard_output(command, capsys):
    assert cli.run([*command, "--help"]) == 0
    out, err = capsys.readouterr()
    assert re.search(r"Examples?:\n    buildlint ", out) and err == ""


def test_the_version_is_told_with_the_name(capsys):
    assert cli.run(["--version"]) == 0
    assert capsys.readouterr().out == f"buildlint {buildlint.__version__}\n"


def test_the_shell_can_complete_commands():
    run = program(_BUILDLINT_COMPLETE="bash_complete", COMP_WORDS="buildlint che", COMP_CWORD="1")
    assert run.stdout == b"plain,check\n"


# -- writing files ---------------------------------------------------------------------------------------


def write(path, text="new"):
    new = deliver.Replacement(str(path))
    new.write(text)
    new.settled()


def test_a_new_file_gets_the_permissions_the_umask_leaves(folder):
    old = os.umask(0o027)
    try:
        write("report")
    finally:
        os.umask(old)
    assert os.stat("report").st_mode & 0o777 == 0o640


def test_a_file_that_is_replaced_keeps_its_permissions(folder):
    Path("report").write_text("old")
    os.chmod("report", 0o604)
    write("report")
    assert os.stat("report").st_mode & 0o777 == 0o604 and Path("report").read_text() == "new"


@pytest.mark.parametrize("call", ["open", "fsync", "replace"])
def test_a_disk_that_fails_leaves_the_old_file_and_nothing_else(folder, monkeypatch, call):
    Path("report").write_text("old")

    def fail(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(deliver.os, call, fail)
    with pytest.raises(deliver.CannotWrite, match="^report: cannot be written: no space left on device$"):
        write("report")
    monkeypatch.undo()
    monkeypatch.chdir(folder)
    assert Path("report").read_text() == "old"
    assert sorted(os.listdir()) == ["report", "street.yaml"]


def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(folder):
    Path("report").write_text("old")
    new = deliver.Replacement("report")
    new.file.close()
    new.file = open("/dev/full", "w", buffering=1)
    with pytest.raises(deliver.CannotWrite, match="no space left"):
        new.write("x\n")
    assert Path("report").read_text() == "old"
    assert sorted(os.listdir()) == ["report", "street.yaml"]


def test_links_folders_and_devices_are_refused(folder):
    Path("link").symlink_to("street.yaml")
    for path, told in (("link", "is a link"), (".", "is not a plain file"), ("/dev/full", "is not a plain file")):
        with pytest.raises(deliver.CannotWrite, match=told):
            write(path)
    assert Path("street.yaml").read_text(encoding="utf-8") == SPEC


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_is_told(folder):
    os.chmod(folder, 0o500)
    try:
        with pytest.raises(deliver.CannotWrite, match="permission denied"):
            write("report")
    finally:
        os.chmod(folder, 0o700)


def test_a_run_that_is_killed_leaves_the_old_file(folder):
    Path("report").write_text("old")
    code = ("import os, signal; from buildlint import deliver\n"
            "new = deliver.Replacement('report'); new.write('half'); os.kill(os.getpid(), signal.SIGKILL)")
    subprocess.run([sys.executable, "-c", code], env=ENVIRONMENT, cwd=folder)
    assert Path("report").read_text() == "old"


# -- pipes, locales, closed streams ----------------------------------------------------------------------


@pytest.mark.parametrize("arguments", ["words", "--help", "begin", "check street.yaml", "check street.yaml --format json"])
def test_a_reader_that_goes_away_is_nothing_to_shout_about(folder, arguments):
    run = shell(f'buildlint {arguments} | true; echo "${{PIPESTATUS[0]}}"', folder)
    assert (run.stdout, run.stderr) == (b"141\n", b"")


def test_the_first_line_can_be_had_alone(folder):
    run = shell("buildlint words --format lines | head -1", folder)
    assert run.stdout.count(b"\n") == 1 and run.stderr == b""


def test_a_closed_standard_output_is_incomplete(folder):
    run = shell("buildlint check street.yaml >&-", folder)
    assert run.returncode == 3
    assert run.stderr == b"buildlint: standard output is closed; nothing could be written\n"


def test_a_full_standard_output_is_incomplete(folder):
    run = shell("buildlint check street.yaml >/dev/full", folder)
    assert run.returncode == 3
    assert run.stderr == b"buildlint: standard output cannot be written: No space left on device\n"


def test_a_closed_standard_output_is_not_missed_by_a_file(folder):
    run = shell("buildlint check street.yaml --format json:r.json >&-", folder)
    assert run.returncode == 1 and json.loads(Path("r.json").read_text())["specs"]


def test_a_closed_standard_error_is_not_missed(folder):
    run = shell("buildlint check street.yaml nothing.yaml 2>&-", folder)
    assert (run.returncode, run.stdout) == (2, b"")
    assert shell("buildlint check street.yaml 2>&-", folder).returncode == 1


def test_a_full_standard_error_is_not_missed(folder):
    assert shell("buildlint check street.yaml --format lines 2>/dev/full", folder).returncode == 1


def test_a_closed_standard_input_cannot_be_checked(folder):
    run = shell("buildlint check - <&-", folder)
    assert run.returncode == 2 and run.stderr == b"buildlint: standard input is closed\n"
    assert shell("buildlint check street.yaml <&-", folder).returncode == 1


@pytest.mark.parametrize("environment", [
    {"LANG": "C"}, {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, {"PYTHONIOENCODING": "ascii"},
    {"PYTHONIOENCODING": "cp1252"}, {"TERM": "dumb"}, {"TERM": ""}, {"COLUMNS": "0"}, {"COLUMNS": "-5"},
    {"COLUMNS": "wide"}, {"COLUMNS": "99999999999999999999"}, {"HOME": ""}, {"LANG": "nonsense"},
], ids=lambda environment: " ".join(f"{key}={value}" for key, value in environment.items()))
@pytest.mark.parametrize("form", FORMATS)
def test_every_locale_and_terminal_will_do(folder, environment, form):
    run = program("check", "street.yaml", "--format", form, folder=folder, **environment)
    assert run.returncode == 1, run.stderr
    assert b"key-is-known" in run.stdout and b"Traceback" not in run.stderr


def test_what_a_locale_cannot_show_is_shown_as_an_escape(folder):
    run = program("check", "street.yaml", folder=folder, PYTHONIOENCODING="ascii")
    assert run.stdout.startswith(b"street \\u2033 ")


@pytest.mark.parametrize("options", [["-O"], ["-W", "error"], ["-X", "dev", "-W", "error"], ["-s", "-E"]], ids=" ".join)
def test_every_way_to_run_python_will_do(folder, options):
    if "-E" in options:
        run = program("check", folder / "street.yaml", options=options)
    else:
        run = program("check", "street.yaml", options=options, folder=folder)
    assert run.returncode == 1 and run.stderr == b""


# -- color and width -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("option", "environment", "terminal", "colored"), [
    ("auto", {}, True, True), ("auto", {}, False, False),
    ("auto", {"NO_COLOR": "1"}, True, False), ("auto", {"NO_COLOR": ""}, True, True),
    ("auto", {"NO_COLOR": "1", "CLICOLOR_FORCE": "1"}, True, False),
    ("auto", {"CLICOLOR_FORCE": "1"}, False, True), ("auto", {"CLICOLOR_FORCE": "0"}, False, False),
    ("auto", {"CLICOLOR_FORCE": ""}, False, False), ("auto", {"CLICOLOR_FORCE": "1", "TERM": "dumb"}, False, True),
    ("auto", {"TERM": "dumb"}, True, False), ("auto", {"TERM": ""}, True, False),
    ("auto", {"FORCE_COLOR": "1"}, False, False),
    ("always", {"NO_COLOR": "1", "TERM": "dumb"}, False, True), ("never", {"CLICOLOR_FORCE": "1"}, True, False),
])
def test_color_goes_by_option_then_no_color_then_force_then_terminal(monkeypatch, option, environment, terminal, colored):
    for name in ("NO_COLOR", "CLICOLOR_FORCE", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm")
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "stdout", SimpleNamespace(isatty=lambda: terminal, fileno=lambda: -1))
    assert commands.wishes(option).color is colored


def test_a_file_has_color_only_where_it_is_asked_for(monkeypatch):
    monkeypatch.setenv("CLICOLOR_FORCE", "1")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert commands.wishes("auto", to_file=True).color is False
    assert commands.wishes("always", to_file=True).color is True


@pytest.mark.parametrize(("columns", "width"), [("57", 57), ("0", 80), ("", 80), ("-3", 80), ("²", 80), ("40 ", 80)])
def test_the_width_goes_by_columns(monkeypatch, columns, width):
    monkeypatch.setenv("COLUMNS", columns)
    monkeypatch.setattr(sys, "stdout", None)
    assert commands.wishes("auto").width == width


def on_a_terminal(folder, columns, **environment):
    """Run a check on a real terminal device and return what it showed."""
    import fcntl
    import struct
    import termios

    screen, device = pty.openpty()
    fcntl.ioctl(device, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    process = subprocess.Popen([sys.executable, "-m", "buildlint", "check", "street.yaml"], stdin=device, stdout=device,
                               stderr=device, env={**ENVIRONMENT, **environment}, cwd=folder)
    os.close(device)
    shown = b""
    while True:
        try:
            part = os.read(screen, 4096)
        except OSError:
            part = b""
        if not part:
            break
        shown += part
    os.close(screen)
    assert process.wait(10) == 1
    return shown.decode()


@pytest.mark.parametrize("columns", [20, 40, 66, 200])
def test_on_a_terminal_the_sheet_takes_its_width_and_color(folder, columns):
    shown = on_a_terminal(folder, columns)
    assert "\x1b[1;31m" in shown
    widest = max(len(each) for each in re.sub("\x1b\\[[0-9;]*m", "", shown).splitlines())
    assert widest <= max(40, min(columns, 100))


@pytest.mark.parametrize("environment", [{"TERM": "dumb"}, {"NO_COLOR": "1"}], ids=str)
def test_a_plain_terminal_gets_plain_text(folder, environment):
    assert "\x1b" not in on_a_terminal(folder, 80, **environment)


# -- explain, rules, words -------------------------------------------------------------------------------


def valid(text, part):
    from jsonschema import Draft202012Validator

    schema = json.loads((ROOT / "schemas" / "report.json").read_text())
    document = json.loads(text)
    Draft202012Validator({"$defs": schema["$defs"], "$ref": f"#/$defs/{part}"} if part else schema).validate(document)
    return document


def test_every_rule_and_word_is_listed_as_the_contract_says(capsys):
    for command in ("rules", "words"):
        assert cli.run([command, "--format", "json"]) == 0
        listed = valid(capsys.readouterr().out, command)
        assert cli.run([command, "--format", "lines"]) == 0
        assert capsys.readouterr().out.count("\n") == len(listed)


def test_the_report_of_a_real_check_keeps_its_contract(folder, capsys):
    assert cli.run(["check", "street.yaml", "--format", "json"]) == 1
    assert valid(capsys.readouterr().out, "")["specs"][0]["counts"]["error"] >= 1


def test_every_rule_can_be_explained(capsys):
    from buildlint import road

    for rule in road.rules():
        assert cli.run(["explain", rule.id]) == 0
        assert rule.id in capsys.readouterr().out
        assert cli.run(["explain", rule.id, "--format", "json"]) == 0
        valid(capsys.readouterr().out, "rule")


@pytest.mark.parametrize("name", ["valve_lift", "block_bore", "block.bore", "intake_valve_lift", "intake.spring.seat_load"])
def test_a_word_is_explained_by_name_outside_name_or_path(name, capsys):
    assert cli.run(["explain", name]) == 0
    assert capsys.readouterr().out
    assert cli.run(["explain", name, "--format", "json"]) == 0
    valid(capsys.readouterr().out, "words")


LIFT = "engine: {cylinders: 8}\nrockers: {ratio: 1.6}\nlifters: {kind: hydraulic_roller}\n" \
       "intake: {lobe: {lift: 0.353 in}}\nexhaust: {lobe: {lift: 0.360 in}}\n"


def test_a_number_is_explained_in_each_scope_of_a_spec(folder, capsys):
    Path("lift.yaml").write_text(LIFT)
    assert cli.run(["explain", "valve_lift", "lift.yaml"]) == 0
    told = capsys.readouterr().out
    assert "valve_lift, intake: 0.5648 in" in told and "valve_lift, exhaust: 0.576 in" in told
    assert "written at lift.yaml:4:23" in told
    assert cli.run(["explain", "valve_lift", "lift.yaml", "--format", "json"]) == 0
    assert [each["scope"] for each in valid(capsys.readouterr().out, "explanations")] == [["intake"], ["exhaust"]]


def test_a_number_that_a_spec_does_not_give_is_no_finding_but_nothing_found(folder, capsys):
    assert cli.run(["explain", "valve_lift", "street.yaml"]) == 1
    out, err = capsys.readouterr()
    assert out == "" and "street.yaml does not give valve_lift" in err


def test_a_thread_that_follows_from_others_is_called_by_its_name(folder, capsys):
    (folder / "threads.yaml").write_text("joints:\n  head: {kind: bolt, thread: 7/16-14 UNC}\n  rod: {kind: bolt, thread: M10x1.25}\n")
    assert cli.run(["explain", "casting_thread", "threads.yaml"]) == 0
    told = capsys.readouterr().out
    assert "casting_thread, head joint: 7/16-14 UNC" in told and "casting_thread, rod joint: M10x1.25" in told and "ScrewThread" not in told
    assert cli.run(["explain", "casting_thread", "threads.yaml", "--format", "json"]) == 0
    assert [one["value"] for one in json.loads(capsys.readouterr().out)] == ["7/16-14 UNC", "M10x1.25"]


def test_a_rule_is_explained_with_what_it_says_of_a_spec(folder, capsys):
    from buildlint import road

    Path("lift.yaml").write_text(LIFT)
    rule = next(rule for rule in road.rules() if "valve_lift" in rule.words and rule.scope == "side")
    assert cli.run(["explain", rule.id, "lift.yaml"]) == 0
    told = capsys.readouterr().out
    assert f"{rule.id}, intake" in told and "valve_lift, intake: 0.5648 in" in told


def test_explaining_against_a_spec_that_is_not_there_is_told(folder, capsys):
    assert cli.run(["explain", "valve_lift", "nowhere.yaml"]) == 2
    assert "nowhere.yaml" in capsys.readouterr().err


@pytest.mark.parametrize(("option", "value"), [
    ("area", "valvetrain"), ("level", "error"), ("due", "ordering"), ("scope", "joint")])
def test_rules_can_be_narrowed_down(option, value, capsys):
    assert cli.run(["rules", "--format", "json"]) == 0
    everything = json.loads(capsys.readouterr().out)
    assert cli.run(["rules", f"--{option}", value, "--format", "json"]) == 0
    chosen = json.loads(capsys.readouterr().out)
    assert chosen == [rule for rule in everything if rule[option] == value] and 0 < len(chosen) < len(everything)


def test_words_can_be_searched(capsys):
    assert cli.run(["words", "coil_bind", "--format", "lines"]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told and all("coil_bind" in each.partition(":")[0] for each in told)


# -- start-up --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("arguments", "unwanted"), [
    (["--help"], {"buildlint.road", "buildlint.judge", "yaml", "rich", "jsonschema", "pint", "numpy", "difflib"}),
    (["check", "street.yaml", "--format", "lines"], {"rich", "pint", "numpy", "dataclasses", "importlib.metadata"}),
    (["check", "street.yaml", "--format", "json"], {"rich", "pint", "numpy"}),
    (["check", "street.yaml"], {"pint", "numpy", "importlib.metadata"}),
], ids=lambda value: " ".join(value) if isinstance(value, list) else "")
def test_nothing_is_loaded_that_is_not_used(folder, arguments, unwanted):
    Path("street.yaml").write_text("build: {stage: planning}\n")  # nothing wrong with its shape
    code = ("import sys\nfrom buildlint import cli\n"
            f"cli.run({arguments!r})\nsys.stderr.write('\\n' + ' '.join(sys.modules))")
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=ENVIRONMENT, cwd=folder)
    assert unwanted & set(run.stderr.split()) == set()
