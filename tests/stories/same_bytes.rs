//! One input, one answer: the zone, the language, the number of cores and the build change no byte.

use std::process::Command;

use survey::Digest;

use super::demo::{plain, play};

/// Asks for another zone and language, and where the machine can, for one core only.
fn elsewhere(command: Command) -> Command {
    let has_taskset = Command::new("taskset").arg("--version").output().is_ok_and(|o| o.status.success());
    let mut changed = if has_taskset {
        let mut pinned = Command::new("taskset");
        pinned.args(["-c", "0"]).arg(command.get_program());
        pinned.current_dir(command.get_current_dir().unwrap());
        pinned.envs(command.get_envs().filter_map(|(k, v)| Some((k, v?))));
        pinned
    } else {
        command
    };
    changed.env("TZ", "Asia/Kathmandu").env("LANG", "de_DE.UTF-8").env("LC_ALL", "de_DE.UTF-8");
    changed
}

#[test]
fn zone_language_and_one_core_change_no_byte_of_packets_and_comparisons() {
    let other = play(elsewhere);
    let here = plain();
    assert_eq!(other.made, here.made);
    assert_eq!(other.said, here.said, "what people read is the same too");
    assert!(here.made.len() >= 6);
}

/// Build profiles are compared by a script that builds both and names the other program in this variable. Only what
/// was assessed is compared: a program with pages seals them in, one without does not.
#[test]
#[ignore = "needs another build of the program: run make torture"]
fn another_build_of_the_program_assesses_to_the_same_bytes() {
    let other =
        std::env::var_os("UNDERLATH_OTHER_BUILD").expect("UNDERLATH_OTHER_BUILD names the other program");
    let run = play(|command| {
        let mut changed = Command::new(other);
        changed.current_dir(command.get_current_dir().unwrap());
        changed.envs(command.get_envs().filter_map(|(k, v)| Some((k, v?))));
        changed
    });
    let assessed = |run: &super::demo::Run| -> Vec<Digest> {
        let packets = run.made.keys().filter(|p| p.ends_with(".zip"));
        packets.map(|p| Digest::of(packet::open(&run.dir.join(p)).unwrap().assessment())).collect()
    };
    assert_eq!(assessed(&run), assessed(plain()));
    let compared = |run: &super::demo::Run| -> Vec<Digest> {
        run.made.iter().filter(|(p, _)| p.ends_with(".json")).map(|(_, d)| *d).collect()
    };
    assert_eq!(compared(&run), compared(plain()));
    assert_eq!(compared(&run).len(), 3);
}

/// Digests of what was assessed and compared, as they were committed; made by whatever build somebody had. A change
/// of catalog, samples or engine changes them: `UPDATE_EXPECTED=1` writes them, and the commit says why.
#[test]
fn the_samples_assess_to_the_bytes_that_were_committed() {
    let run = plain();
    let mut found = std::collections::BTreeMap::new();
    for path in run.made.keys().filter(|p| p.ends_with(".zip")) {
        let packet = packet::open(&run.dir.join(path)).unwrap();
        let comparison = std::fs::read(run.dir.join(path.replace(".zip", "-comparison.json"))).unwrap();
        let digests = [Digest::of(packet.assessment()).hex(), Digest::of(&comparison).hex()];
        found.insert(packet.info().label.clone(), digests);
    }
    let text = serde_json::to_string_pretty(&found).unwrap() + "\n";
    let file = crate::support::root().join("sample-surveys/expected.json");
    if std::env::var_os("UPDATE_EXPECTED").is_some() {
        std::fs::write(&file, &text).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&file).unwrap_or_default(), text, "expected.json is stale");
}
