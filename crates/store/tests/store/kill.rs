//! Killed while recording: nothing that was acknowledged is lost.
//!
//! A child records as fast as it can and prints the id of each entry once `append_with` has returned; the parent
//! reads these and kills the child (SIGKILL) at a random moment within 50 ms after a write, 200 times.

use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;
use std::sync::mpsc;
use std::time::Duration;

use crate::support::*;

const KILLS: u64 = 200;
/// Rounds on one store before a new one is begun; the first kill of each falls while it is being made.
const PER_STORE: u64 = 20;

#[test]
fn child_records_until_it_is_killed() {
    let Some(dir) = handed_over() else { return };
    let mut out = std::io::stdout();
    out.write_all(b"\nbegun\n").unwrap();
    let mut store = open(&dir, 1);
    for i in 0.. {
        let survey = house((i % 3) as u8);
        let entry = record(&mut store, survey, answer(&format!("item-{}", i % 11), i, &[]));
        out.write_all(format!("ack {} {}\n", entry.survey, entry.id).as_bytes()).unwrap();
        out.flush().unwrap();
    }
}

#[test]
fn nothing_acknowledged_is_lost_when_the_process_is_killed() {
    let mut dice = Dice(20_260_412);
    let mut kept = None;
    let mut acknowledged: BTreeSet<String> = BTreeSet::new();
    let (mut kills, mut total, mut while_recording) = (0, 0, 0);
    while kills < KILLS {
        if kills % PER_STORE == 0 {
            kept = Some(tempfile::tempdir().unwrap());
            acknowledged.clear();
        }
        let dir = kept.as_ref().unwrap().path();
        let mut child = child("kill::child_records_until_it_is_killed", dir)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let (send, lines) = mpsc::channel();
        let pipe = BufReader::new(child.stdout.take().unwrap());
        let reader = std::thread::spawn(move || {
            // Only whole lines count: the last one may be cut by the kill.
            for line in pipe.split(b'\n').map_while(Result::ok) {
                if send.send(String::from_utf8(line).unwrap()).is_err() {
                    break;
                }
            }
        });
        let patience = Duration::from_secs(20);
        let mut seen = Vec::new();
        // While it is being made: right after the start. Otherwise after some entries.
        let (word, wanted) = if kills % PER_STORE == 0 { ("begun", 1) } else { ("ack ", 1 + dice.below(4)) };
        let mut found = 0;
        while found < wanted {
            let line = lines.recv_timeout(patience).expect("the child records");
            found += u64::from(line.starts_with(word));
            seen.push(line);
        }
        std::thread::sleep(Duration::from_micros(dice.below(50_000)));
        child.kill().unwrap();
        let status = child.wait().unwrap();
        assert!(status.code().is_none(), "ended by the signal, not by itself: {status}");
        reader.join().unwrap();
        seen.extend(lines.try_iter());
        // A cut last line still looks like one to `split`; an id is whole or it is dropped.
        let ids = seen.iter().filter_map(|l| l.strip_prefix("ack ")).filter(|l| l.len() == 73);
        let before = acknowledged.len();
        acknowledged.extend(ids.map(str::to_owned));
        while_recording += u32::from(acknowledged.len() > before);
        total += (acknowledged.len() - before) as u64;
        kills += 1;

        let store = open(dir, 1);
        let mut there = BTreeSet::new();
        for n in 0..3 {
            there.extend(store.entries(house(n)).unwrap().iter().map(|e| format!("{} {}", e.survey, e.id)));
        }
        let lost: Vec<_> = acknowledged.difference(&there).collect();
        assert!(lost.is_empty(), "kill {kills}: {} acknowledged entries are gone: {lost:?}", lost.len());
        if kills % 5 == 0 || kills % PER_STORE == 1 {
            let report = store.check();
            assert!(report.is_whole(), "kill {kills}: {:?}", report.problems);
        }
    }
    assert!(while_recording > 150 && total > 400, "{while_recording} kills while recording, {total} entries");
}
