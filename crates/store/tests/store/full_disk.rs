//! A disk that is really full: a tmpfs of 2 MB, mounted for this test alone in a mount namespace of its own.

use std::path::Path;
use std::process::{Command, Stdio};

use store::{ErrorKind, Store};

use crate::support::*;

/// Runs in the child, on the small disk.
#[test]
fn child_fills_the_disk() {
    let Some(disk) = handed_over() else { return };
    let survey = house(1);
    let mut store = open(&disk.join("surveys"), 1);
    let mut acknowledged = Vec::new();
    let kept = store.blobs().put(b"a photograph").unwrap();
    for i in 0..5 {
        acknowledged.push(record(&mut store, survey, answer("stub-height", i, &[])));
    }
    for round in 0..3 {
        fill_up(&disk);
        // What is left of the log's own room is used up first.
        let error = loop {
            match store.append_with(survey, |next| entry(next, note(&"words ".repeat(300)))) {
                Ok(entry) => acknowledged.push(entry),
                Err(error) => break error,
            }
        };
        assert_eq!(error.kind(), ErrorKind::Full, "{error}");
        let text = said(&error);
        assert!(text.contains("KiB") && text.contains("kept") && text.contains("underlath.sqlite"), "{text}");
        let error = store.blobs().put(&vec![round; 3 << 20]).unwrap_err();
        assert!(error.kind() == ErrorKind::Full && said(&error).contains("KiB"), "{error}");
        let error = store.put_forecast(
            survey,
            &store::Forecast::new(survey::Digest::of(b""), "e", 1, stamp(0), vec![round; 1 << 20]),
        );
        assert_eq!(error.unwrap_err().kind(), ErrorKind::Full);

        // Nothing acknowledged is lost, in this process or in the next one.
        assert_eq!(store.entries(survey).unwrap(), acknowledged);
        if round == 1 {
            drop(store);
            match Store::open(&disk.join("surveys"), stamp(0), device(1)) {
                Ok(_) => {}
                Err(e) => assert_eq!(e.kind(), ErrorKind::Full, "{e}"),
            }
            std::fs::remove_file(disk.join("ballast")).unwrap();
            store = open(&disk.join("surveys"), 1);
        } else {
            std::fs::remove_file(disk.join("ballast")).unwrap();
        }
        assert_eq!(store.entries(survey).unwrap(), acknowledged);
        acknowledged.push(record(&mut store, survey, note("after making room")));
    }
    assert_eq!(store.entries(survey).unwrap(), acknowledged);
    assert_eq!(store.blobs().verify(kept).unwrap(), 12);
    assert!(store.check().is_whole(), "{:?}", store.check().problems);
    // A new store on a full disk is refused, and none is left half made.
    fill_up(&disk);
    let second = disk.join("second");
    let error = Store::open(&second, stamp(0), device(2)).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Full, "{error}");
    std::fs::remove_file(disk.join("ballast")).unwrap();
    assert_eq!(open(&second, 3).device(), device(3));
    std::fs::write(disk.join("done"), b"").unwrap();
    println_done();
}

fn println_done() {
    use std::io::Write;
    std::io::stdout().write_all(b"\nwalked through the full disk\n").unwrap();
}

/// Writes until not one more byte goes in.
fn fill_up(disk: &Path) {
    use std::io::Write;
    let mut ballast = std::fs::File::create(disk.join("ballast")).unwrap();
    for size in [65_536, 4_096, 512, 1] {
        while ballast.write_all(&vec![1; size]).is_ok() {}
    }
}

#[test]
fn on_a_full_disk_recording_stops_in_words_and_goes_on_when_there_is_room() {
    let dir = tempfile::tempdir().unwrap();
    let program = child("full_disk::child_fills_the_disk", dir.path());
    let mut tried = Vec::new();
    // As root a mount namespace is enough; otherwise a user namespace gives the right to mount.
    for unshare in [vec!["unshare", "-m"], vec!["unshare", "-rm"]] {
        let mut command = Command::new(unshare[0]);
        command.args(&unshare[1..]).args(["sh", "-c"]);
        command.arg("mount -t tmpfs -o size=2m tmpfs \"$1\" || exit 99; shift; exec \"$@\"");
        command.arg("sh").arg(dir.path()).arg(program.get_program()).args(program.get_args());
        command.envs(program.get_envs().filter_map(|(k, v)| Some((k, v?))));
        match command.stdin(Stdio::null()).output() {
            Ok(output) => {
                let (out, err) =
                    (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
                if out.contains("running 1 test") {
                    assert!(output.status.success(), "{out}\n{err}");
                    assert!(out.contains("walked through the full disk"), "{out}\n{err}");
                    return;
                }
                tried.push(format!("{}: {}", unshare.join(" "), err.trim()));
            }
            Err(e) => tried.push(format!("{}: {e}", unshare.join(" "))),
        }
    }
    let words = format!("NOT TESTED: no small disk can be mounted here ({})", tried.join("; "));
    assert!(!on_build_machine(), "{words}");
    use std::io::Write;
    std::io::stderr().write_all(format!("{words}\n").as_bytes()).unwrap();
}
