//! `make bench`: the speeds that are told, each with what it is compared with in the same run.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a benchmark"
)]
#![allow(unreachable_pub, reason = "a test binary has no outside")]
#![allow(clippy::disallowed_methods, reason = "a benchmark reads the clock")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use actions::{Desk, Entered, Kit, assess, builtin_catalog, import_photo, record};
use assessment::decision::LossRules;
use assessment::{ClueTables, Live, Request};
use keys::{SecretKey, Signer as _};
use packet::{Contents, Sealer};
use survey::log::Body;
use survey::{Digest, SurveyId};

#[path = "../support/mod.rs"]
#[allow(dead_code, reason = "shared with the tests")]
mod support;

fn ms(d: Duration) -> f64 {
    d.as_secs_f64() * 1000.0
}

/// Median and 99th percentile.
fn median_p99(mut times: Vec<Duration>) -> (f64, f64) {
    times.sort();
    (ms(times[times.len() / 2]), ms(times[times.len() * 99 / 100]))
}

fn main() {
    let dir = tempfile::tempdir_in(std::env::var_os("UNDERLATH_BENCH_DIR").unwrap_or(".".into())).unwrap();
    answers(dir.path());
    largest_house(dir.path());
    sealing(dir.path());
}

/// One answer including the save, as the command line and the tablet make it: picture read, value checked, fsync.
fn answers(dir: &Path) {
    let (mut desk, clock, mut random) = support::desk(&dir.join("answers"));
    let survey =
        support::house(&mut desk, &clock, &mut random, &[("planned-work", &["deep-sink", "new-floor"])]);
    let mut kit = Kit { clock: &clock, random: &mut random, by: "R. Ames".into() };
    let mut times = Vec::new();
    for i in 0..500 {
        let entered = Entered { answer: vec![format!("{} in", 10 + i % 12)], ..Entered::default() };
        let start = Instant::now();
        record(&mut desk, survey, "stub-height", &entered, &[], &mut kit).unwrap();
        times.push(start.elapsed());
    }
    // Peer: the same number of bytes appended to a plain file and fsynced.
    let mut file = std::fs::File::create(dir.join("plain")).unwrap();
    let mut plain = Vec::new();
    for _ in 0..500 {
        let start = Instant::now();
        std::io::Write::write_all(&mut file, &[b'x'; 600]).unwrap();
        file.sync_data().unwrap();
        plain.push(start.elapsed());
    }
    let ((median, p99), (peer, peer_p99)) = (median_p99(times), median_p99(plain));
    println!("record one answer   median {median:.2} ms, p99 {p99:.2} ms");
    println!("  plain append+fsync median {peer:.2} ms, p99 {peer_p99:.2} ms   ratio {:.1}", median / peer);
}

/// Assessing the largest sample house, network, posteriors, reasons, looks, 20,000 joint draws and freezing.
fn largest_house(dir: &Path) {
    let home = dir.join("demo");
    let program = support::program();
    let samples = support::root().join("sample-surveys");
    let made = Command::new(program)
        .arg("demo")
        .arg("--samples")
        .arg(samples)
        .arg("--into")
        .arg(&home)
        .output()
        .unwrap();
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    let (mut desk, clock, mut random) = support::desk(&home.join("device"));
    let mut kit = Kit { clock: &clock, random: &mut random, by: "R. Ames".into() };
    let survey = desk.find("Alder Street kitchen").unwrap();
    let _ = desk.tables();
    let mut times = Vec::new();
    let mut conditions = 0;
    for _ in 0..10 {
        let start = Instant::now();
        conditions = assess(&mut desk, survey, &mut kit).unwrap().forecast.conditions.len();
        times.push(start.elapsed());
    }
    let (median, worst) = median_p99(times);
    println!(
        "assess the largest sample house ({conditions} conditions)   median {median:.0} ms, worst {worst:.0} ms"
    );
    after_an_answer(&desk, survey);
    pages(&mut desk, survey, &dir.join("pages"), median, &mut kit);
}

/// All pages and tables of the house, set and written into the packet, the assessment before them taken off.
fn pages(desk: &mut Desk, survey: SurveyId, into: &Path, assessing: f64, kit: &mut Kit<'_>) {
    std::fs::create_dir(into).unwrap();
    let mut times = Vec::new();
    let mut made = 0;
    for _ in 0..5 {
        let start = Instant::now();
        // Dropped before anything but its first bytes is on the disk.
        let sealing =
            actions::begin_sealing(desk, survey, into, &actions::SealOptions::default(), kit).unwrap();
        times.push(start.elapsed());
        made = sealing.pages().len();
    }
    let (median, worst) = median_p99(times);
    println!(
        "its {made} files of pages and tables   median {:.0} ms, worst {:.0} ms",
        median - assessing,
        worst - assessing
    );
}

/// One answer changed in the largest sample house, as a screen asks: odds first, then looks, then money and days; and
/// the cold start from the catalog's text to the first odds.
fn after_an_answer(desk: &Desk, survey: SurveyId) {
    let picture = desk.picture(survey).unwrap();
    let (catalog, rules) = (desk.catalog(), LossRules::default());
    let request = Request { survey, picture: &picture, catalog, tables: desk.tables(), rules };
    let mut live = Live::default();
    let (mut odds_took, mut looks_took, mut money_took) = (vec![], vec![], vec![]);
    for _ in 0..30 {
        let start = Instant::now();
        let mut odds = live.odds(&request).unwrap();
        odds_took.push(start.elapsed());
        let start = Instant::now();
        odds.looks(&mut || true).unwrap();
        looks_took.push(start.elapsed());
        let start = Instant::now();
        odds.money(&mut || true).unwrap();
        money_took.push(start.elapsed());
    }
    let cold = (0..10).map(|_| {
        let start = Instant::now();
        let catalog = builtin_catalog().unwrap();
        let tables = ClueTables::fit(&catalog);
        let request = Request { catalog: &catalog, tables: &tables, ..request };
        Live::default().odds(&request).unwrap();
        start.elapsed()
    });
    let cold = cold.collect();
    for (what, took) in [
        ("odds after an answer", odds_took),
        ("  then all looks ranked", looks_took),
        ("  then money and days, 20,000 joint draws", money_took),
        ("cold: catalog, clue tables, network, tree, odds", cold),
    ] {
        let (median, worst) = median_p99(took);
        println!("{what:<50} median {median:.1} ms, worst {worst:.1} ms");
    }
}

/// Sealing 60 photographs of about 3.4 MB against `sha256sum` and `cp` of the same files.
fn sealing(dir: &Path) {
    let (mut desk, clock, mut random) = support::desk(&dir.join("sealing"));
    let survey = support::house(&mut desk, &clock, &mut random, &[("planned-work", &["deep-sink"])]);
    let original = std::fs::read(support::sample_photo()).unwrap();
    let files = dir.join("photos");
    std::fs::create_dir(&files).unwrap();
    let mut paths: Vec<PathBuf> = Vec::new();
    for i in 0..60u32 {
        let mut bytes = original.clone();
        // Bytes after the end of the picture make it as heavy as a tablet's, and different from the next.
        bytes.extend((0..3_300_000u32).map(|k| (k.wrapping_mul(2_654_435_761).wrapping_add(i) >> 24) as u8));
        let path = files.join(format!("{i:02}.jpg"));
        std::fs::write(&path, &bytes).unwrap();
        paths.push(path);
        let mut kit = Kit { clock: &clock, random: &mut random, by: "R. Ames".into() };
        import_photo(&mut desk, survey, Some("stub-height"), &format!("{i}.jpg"), &bytes, None, &mut kit)
            .unwrap();
    }
    let mut kit = Kit { clock: &clock, random: &mut random, by: "R. Ames".into() };
    let assessed = assess(&mut desk, survey, &mut kit).unwrap();
    let network = assessment::bif(&assessed.network, &assessed.forecast);
    let entries = desk.store().entries(survey).unwrap();
    let mut originals: BTreeMap<Digest, PathBuf> = entries
        .iter()
        .filter_map(|e| match &e.body {
            Body::Photo(p) => Some((p.digest, desk.store().blobs().path(p.digest))),
            _ => None,
        })
        .collect();
    let key = SecretKey::from_random([7; 32]).unwrap();
    let (mut ours, mut peer) = (Vec::new(), Vec::new());
    for round in 0..5u32 {
        let contents = Contents {
            survey,
            label: "sixty photographs",
            number: round + 1,
            device: desk.store().device(),
            sealed_at: support::moment(),
            organization: None,
            entries: &entries,
            log_position: entries.len() as u64,
            assessment: &assessed.bytes,
            network: network.as_bytes(),
            catalog: assessed.forecast.catalog.digest,
            engine: &assessed.forecast.engine,
            previous: None,
            pages: &[],
            sealer: Sealer::Key(key.public()),
        };
        let start = Instant::now();
        packet::seal(&dir.join(format!("sealed-{round}.zip")), &contents, &mut originals, &key).unwrap();
        ours.push(start.elapsed());
        let to = dir.join(format!("copied-{round}"));
        std::fs::create_dir(&to).unwrap();
        let start = Instant::now();
        let sums = Command::new("sha256sum").args(&paths).output().unwrap();
        assert!(sums.status.success());
        assert!(Command::new("cp").args(&paths).arg(&to).status().unwrap().success());
        assert!(Command::new("sync").arg("-f").arg(&to).status().unwrap().success());
        peer.push(start.elapsed());
    }
    let ((a, _), (b, _)) = (median_p99(ours), median_p99(peer));
    println!("seal 60 photographs (204 MB)   median {a:.0} ms");
    println!("  sha256sum + cp + sync -f     median {b:.0} ms   ratio {:.2}", a / b);
}
