//! Shared helpers: where things are, the program, a clock that stands, a house with a few answers.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use actions::{Clock, Desk, Entered, Kit, NewSurvey, Random, open_survey, record};
use assessment::Forecast;
use survey::catalog::{Catalog, builtin};
use survey::units::Money;
use survey::{Stamp, SurveyId};

pub mod forecasts;
pub mod line;
pub mod office;
pub mod relay;

/// The project's folder.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// A reference file.
pub fn vectors(name: &str) -> serde_json::Value {
    let path = root().join("tests/vectors").join(name);
    serde_json::from_str(
        &std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display())),
    )
    .unwrap()
}

/// A copy of a folder with all that lies in it.
pub fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let to = to.join(path.file_name().unwrap());
        if path.is_dir() { copy_folder(&path, &to) } else { std::fs::copy(&path, &to).map(drop).unwrap() }
    }
}

/// The program, built beside this test.
pub fn program() -> PathBuf {
    let here = std::env::current_exe().unwrap();
    let target = here.ancestors().find(|p| p.join("deps").is_dir()).unwrap();
    let program = target.join(format!("underlath{}", std::env::consts::EXE_SUFFIX));
    assert!(program.is_file(), "{} is not built: run cargo test --workspace", program.display());
    program
}

/// The program with its own folders below `dir`.
pub fn underlath(dir: &Path) -> Command {
    let mut command = Command::new(program());
    command.current_dir(dir);
    command
        .env("UNDERLATH_HOME", dir.join("device"))
        .env("UNDERLATH_OFFICE", dir.join("office"))
        .env("USER", "R. Ames")
        .env("LC_ALL", "C")
        .env_remove("UNDERLATH_OVERLAY");
    command
}

/// Runs and expects success.
pub fn run(dir: &Path, args: &[&str]) -> String {
    let output = underlath(dir).args(args).output().unwrap();
    assert!(output.status.success(), "underlath {args:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Runs with something typed, and expects success; what was printed, and what was asked.
pub fn run_typing(dir: &Path, args: &[&str], typed: &str) -> (String, String) {
    use std::io::Write as _;
    use std::process::Stdio;
    let mut command = underlath(dir);
    command.args(args).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    child.stdin.take().unwrap().write_all(typed.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    let asked = String::from_utf8(output.stderr).unwrap();
    assert!(output.status.success(), "underlath {args:?}: {asked}");
    (String::from_utf8(output.stdout).unwrap(), asked)
}

/// Runs and expects a refusal: exit code and the words of the other stream.
pub fn refused(dir: &Path, args: &[&str]) -> (i32, String) {
    let output = underlath(dir).args(args).output().unwrap();
    told(&output)
}

/// Exit code and words of a refusal: one paragraph, no backtrace.
pub fn told(output: &Output) -> (i32, String) {
    let words = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(!output.status.success(), "this must be refused: {}", String::from_utf8_lossy(&output.stdout));
    assert!(!words.contains("panicked"), "{words}");
    assert_eq!(words.trim_end().lines().count(), 1, "one paragraph: {words}");
    (output.status.code().unwrap_or(-1), words)
}

/// Python with the test packages.
pub fn python() -> Command {
    Command::new(std::env::var("UNDERLATH_TEST_PYTHON").unwrap_or_else(|_| "python3".into()))
}

/// A clock that stands.
pub struct Still(pub Stamp);

impl Clock for Still {
    fn now(&self) -> Stamp {
        self.0
    }
}

/// Counts instead of drawing.
pub struct Counted(pub u64);

impl Random for Counted {
    fn ten(&mut self) -> [u8; 10] {
        self.0 += 1;
        let mut bytes = [0; 10];
        bytes[2..].copy_from_slice(&self.0.to_be_bytes());
        bytes
    }
}

/// A moment of the tests.
pub fn moment() -> Stamp {
    "2026-04-14T09:30:00-05:00".parse().unwrap()
}

/// A desk in a folder, with the built-in catalog.
pub fn desk(dir: &Path) -> (Desk, Still, Counted) {
    desk_with(dir, builtin().unwrap())
}

/// The same with a firm's own catalog.
pub fn desk_with(dir: &Path, catalog: Catalog) -> (Desk, Still, Counted) {
    let (clock, mut random) = (Still(moment()), Counted(0));
    let mut kit = Kit { clock: &clock, random: &mut random, by: "R. Ames".into() };
    let desk = Desk::open(dir, catalog, &mut kit).unwrap();
    (desk, clock, random)
}

/// Opens a house and records answers given as (item, words).
pub fn house(desk: &mut Desk, clock: &Still, random: &mut Counted, answers: &[(&str, &[&str])]) -> SurveyId {
    let mut kit = Kit { clock, random, by: "R. Ames".into() };
    let [.., high, low] = kit.random.ten();
    let new = NewSurvey {
        label: format!("Test house {}", u16::from_be_bytes([high, low])),
        contract: Some(Money::from_dollars(80_000)),
        contract_days: Some(30),
    };
    let survey = open_survey(desk, &new, &mut kit).unwrap();
    for (item, words) in answers {
        let entered =
            Entered { answer: words.iter().map(|w| (*w).to_owned()).collect(), ..Entered::default() };
        record(desk, survey, item, &entered, &[], &mut kit)
            .unwrap_or_else(|e| panic!("{item}: {e} {:?}", e.hint));
    }
    survey
}

/// The frozen assessment of a house as its log stands.
pub fn forecast(desk: &mut Desk, clock: &Still, random: &mut Counted, survey: SurveyId) -> Forecast {
    let mut kit = Kit { clock, random, by: "R. Ames".into() };
    actions::assess(desk, survey, &mut kit).unwrap().forecast
}

/// What cargo says of the workspace; `--offline`, because a test fetches nothing.
pub fn cargo_metadata(options: &[&str]) -> serde_json::Value {
    let mut command = Command::new(env!("CARGO"));
    command.args(["metadata", "--format-version", "1", "--offline"]).args(options).current_dir(root());
    let output = command.output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The built-in catalog.
pub fn catalog() -> Catalog {
    builtin().unwrap()
}

/// A photograph of the samples.
pub fn sample_photo() -> PathBuf {
    let folder = root().join("sample-surveys/alder-street/photos");
    let mut photos: Vec<PathBuf> = std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().path()).collect();
    photos.sort();
    photos.into_iter().find(|p| p.extension().is_some_and(|e| e == "jpg")).unwrap()
}
