//! The order of system calls: written, fsynced, and only then acknowledged.
//!
//! Watched from outside with strace. Without strace this cannot be shown, so its absence is a failure.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::support::*;

const ENTRIES: usize = 25;

#[test]
fn child_records_a_few() {
    let Some(dir) = handed_over() else { return };
    let mut store = open(&dir, 1);
    for i in 0..ENTRIES as i64 {
        let entry = record(&mut store, house(1), answer("stub-height", i, &[]));
        acknowledge(&entry.id.to_string());
    }
}

/// Breaks the rule on purpose: shows that the watcher sees it.
#[test]
fn child_records_carelessly() {
    let Some(dir) = handed_over() else { return };
    drop(open(&dir, 1));
    let conn = rusqlite::Connection::open(database(&dir)).unwrap();
    conn.execute_batch("PRAGMA synchronous = OFF;").unwrap();
    for i in 0..ENTRIES {
        conn.execute("UPDATE device SET name = ?1", [format!("name {i}")]).unwrap();
        acknowledge(&format!("{i}"));
    }
}

fn acknowledge(id: &str) {
    use std::io::Write;
    std::io::stdout().write_all(format!("\nack {id}\n").as_bytes()).unwrap();
    std::io::stdout().flush().unwrap();
}

/// What one system call did to the log or to the parent.
#[derive(Debug, PartialEq)]
enum Step {
    Written,
    Synced,
    Acknowledged,
}

fn watch(test: &str, dir: &Path) -> Vec<Step> {
    let trace = dir.join("trace.txt");
    let program = child(test, &dir.join("store"));
    let mut strace = Command::new("strace");
    strace
        .args(["-f", "-y", "-e", "trace=fsync,fdatasync,write,pwrite64,writev,pwritev,msync", "-o"])
        .arg(&trace);
    strace.arg(program.get_program()).args(program.get_args());
    strace.envs(program.get_envs().filter_map(|(k, v)| Some((k, v?))));
    let output = strace.stdin(Stdio::null()).output().expect(
        "strace is needed to show the order of fsync and acknowledgement; install it (apt-get install strace)",
    );
    assert!(output.status.success(), "strace: {}", String::from_utf8_lossy(&output.stderr));
    let text = std::fs::read_to_string(&trace).unwrap();
    let steps: Vec<Step> = text.lines().filter_map(step).collect();
    let acks = steps.iter().filter(|s| **s == Step::Acknowledged).count();
    assert_eq!(acks, ENTRIES, "the trace holds every acknowledgement:\n{text}");
    steps
}

/// Reads `1234 pwrite64(5</tmp/x/underlath.sqlite-wal>, "…", 24, 32) = 24`. A call that another thread interrupts
/// is shown in two lines; the test runs one thread while recording, so the first line is in its place.
fn step(line: &str) -> Option<Step> {
    let call = line.split_once(' ')?.1.trim_start();
    let name = call.split_once('(')?.0;
    let on_log = call.contains("underlath.sqlite-wal>");
    match name {
        "fsync" | "fdatasync" if on_log => {
            assert!(line.ends_with("= 0") || line.contains("unfinished"), "fsync failed: {line}");
            Some(Step::Synced)
        }
        "write" | "pwrite64" | "writev" | "pwritev" if on_log => Some(Step::Written),
        "write" if call.starts_with("write(1<") && call.contains("ack ") => Some(Step::Acknowledged),
        _ => None,
    }
}

/// For each acknowledgement: since the one before, was the log written, and fsynced after the last of it?
fn kept_the_order(steps: &[Step]) -> bool {
    let between = steps.split(|s| *s == Step::Acknowledged).take(ENTRIES);
    between.into_iter().all(|steps| {
        let written = steps.iter().rposition(|s| *s == Step::Written);
        let synced = steps.iter().rposition(|s| *s == Step::Synced);
        written.is_some() && synced > written
    })
}

#[test]
fn each_entry_is_fsynced_before_it_is_acknowledged() {
    let dir = tempfile::tempdir().unwrap();
    let steps = watch("fsync::child_records_a_few", dir.path());
    assert!(kept_the_order(&steps), "{steps:?}");
    assert_eq!(open(&dir.path().join("store"), 1).entries(house(1)).unwrap().len(), ENTRIES);
}

#[test]
fn a_program_that_does_not_fsync_is_found_out() {
    let dir = tempfile::tempdir().unwrap();
    let steps = watch("fsync::child_records_carelessly", dir.path());
    assert!(!kept_the_order(&steps), "{steps:?}");
}
