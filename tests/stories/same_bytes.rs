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
fn another_build_of_the_program_assesses_to_the_same_bytes() {
    let Some(other) = std::env::var_os("UNDERLATH_OTHER_BUILD") else { return };
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
