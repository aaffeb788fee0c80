//! A disk that is really full: a tmpfs of 2 MB in a mount namespace of its own, and the program on it.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::support::program;

/// Runs on the small disk. Acknowledgements, refusals and checks go to files beside it.
const SCRIPT: &str = r#"
set -u
mount -t tmpfs -o size=2m tmpfs disk || exit 99
export UNDERLATH_HOME=$PWD/disk/device
u() { "$PROGRAM" "$@"; }
set -e
u new "Mill Lane kitchen" > /dev/null
u record "Mill Lane kitchen" year-built 1962 > /dev/null
u photo "Mill Lane kitchen" small.jpg > /dev/null
echo 3 > acknowledged
set +e
dd if=/dev/zero of=disk/ballast bs=4096 2> /dev/null
i=0
while [ $i -lt 300 ]; do
  u note "Mill Lane kitchen" "note $i $LONG" > /dev/null 2> refused
  code=$?
  [ $code -eq 0 ] || break
  echo 1 >> acknowledged
  i=$((i + 1))
done
echo $code > code
u photo "Mill Lane kitchen" large.jpg > /dev/null 2> photo-refused
echo $? > photo-code
u record "Mill Lane kitchen" year-built 1950 > /dev/null 2> again-refused
echo $? > again-code
rm disk/ballast
u --json check > check || exit 3
u show "Mill Lane kitchen" > shown || exit 4
u record "Mill Lane kitchen" year-built 1958 > /dev/null || exit 5
u photo "Mill Lane kitchen" large.jpg > /dev/null || exit 6
u --json check > check-after || exit 7
exit 0
"#;

fn read(dir: &Path, name: &str) -> String {
    std::fs::read_to_string(dir.join(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
}

#[test]
fn on_a_full_disk_the_program_says_so_loses_nothing_and_goes_on_when_there_is_room() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    std::fs::create_dir(dir.join("disk")).unwrap();
    let real = std::fs::read(super::steps::photo()).unwrap();
    std::fs::write(dir.join("small.jpg"), &real).unwrap();
    // The same picture with a long comment behind its start marker: another digest, a few blocks more.
    let mut large = real[..2].to_vec();
    for n in 0..5u8 {
        large.extend([0xFF, 0xFE, 0xFF, 0xFF]);
        large.extend(std::iter::repeat_n(b'a' + n, 0xFFFD));
    }
    large.extend(&real[2..]);
    std::fs::write(dir.join("large.jpg"), large).unwrap();
    let mut tried = Vec::new();
    // As root a mount namespace is enough; otherwise a user namespace gives the right to mount.
    for how in ["-m", "-rm"] {
        let mut command = Command::new("unshare");
        command.args([how, "sh", "-c", SCRIPT]).current_dir(dir).stdin(Stdio::null());
        command.env("PROGRAM", program()).env("LONG", "words ".repeat(500)).env("USER", "R. Ames");
        match command.output() {
            Ok(output) if read_or(dir, "acknowledged").is_some() => {
                let told = String::from_utf8_lossy(&output.stderr).into_owned();
                return judge(dir, output.status.code(), &told);
            }
            Ok(output) => tried.push(format!("{how}: {}", String::from_utf8_lossy(&output.stderr).trim())),
            Err(e) => tried.push(format!("{how}: {e}")),
        }
    }
    let words = format!("NOT TESTED: no small disk can be mounted here ({})", tried.join("; "));
    assert!(std::env::var_os("CI").is_none_or(|v| v != "true"), "{words}");
    std::io::Write::write_all(&mut std::io::stderr(), format!("{words}\n").as_bytes()).unwrap();
}

fn read_or(dir: &Path, name: &str) -> Option<String> {
    std::fs::read_to_string(dir.join(name)).ok()
}

fn judge(dir: &Path, code: Option<i32>, told: &str) {
    let refused = |name: &str| read(dir, name);
    assert_eq!(code, Some(0), "{told}\n{}", refused("refused"));
    assert_eq!(read(dir, "code").trim(), "1", "the disk filled up: {}", refused("refused"));
    for (name, file) in
        [("refused", "underlath.sqlite"), ("photo-refused", ""), ("again-refused", "underlath.sqlite")]
    {
        let words = refused(name);
        assert_eq!(words.trim_end().lines().count(), 1, "one paragraph: {words}");
        for part in ["disk is full", "kept", "KiB", file] {
            assert!(words.contains(part), "“{part}” is missing in {name}: {words}");
        }
    }
    assert_eq!((read(dir, "photo-code").trim(), read(dir, "again-code").trim()), ("1", "1"));
    let acknowledged: u64 = read(dir, "acknowledged").lines().map(|l| l.parse::<u64>().unwrap()).sum();
    let check = |name: &str| -> serde_json::Value { serde_json::from_str(&read(dir, name)).unwrap() };
    let sound = |name: &str, entries: u64| {
        let told = check(name);
        assert_eq!(told["entries"], entries, "{told}");
        assert_eq!(told["problems"], serde_json::json!([]), "{told}");
    };
    sound("check", acknowledged);
    let shown = read(dir, "shown");
    assert!(shown.lines().any(|l| l.contains("year-built") && l.contains("1962")), "{shown}");
    sound("check-after", acknowledged + 2);
}
