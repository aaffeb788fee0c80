//! An invented house for the tests: two devices, six entries, two photographs of a few bytes.

#![allow(clippy::unwrap_used, clippy::panic, reason = "only for tests and fuzzing")]

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

use keys::{PublicKey, SecretKey, Signer as _};
use survey::log::{Answer, Body, Entry, Note, Opened, PhotoTaken, Sealed, Value};
use survey::{DeviceId, Digest, EntryId, Stamp, SurveyId};

use crate::zip::ZipWriter;
use crate::{Contents, Sealer};

/// What a test seals.
pub(crate) struct House {
    pub(crate) entries: Vec<Entry>,
    pub(crate) photos: BTreeMap<Digest, Vec<u8>>,
    pub(crate) assessment: Vec<u8>,
    pub(crate) network: Vec<u8>,
    pub(crate) key: PublicKey,
}

/// The key of the house's device.
pub(crate) fn key() -> SecretKey {
    SecretKey::from_random([7; 32]).unwrap()
}

const BORN: u64 = 1_776_000_000_000;

pub(crate) fn survey_id() -> SurveyId {
    SurveyId::new(BORN, &[2; 10])
}

fn device(n: u8) -> DeviceId {
    DeviceId::new(BORN, &[n; 10])
}

pub(crate) fn stamp(text: &str) -> Stamp {
    text.parse().unwrap()
}

pub(crate) fn taken(digest: Digest, bytes: u64, name: &str) -> Body {
    Body::Photo(PhotoTaken {
        place: Some("kitchen".into()),
        item: Some("bulkhead-present".into()),
        digest,
        name: name.into(),
        bytes,
        width: 4,
        height: 3,
        orientation: 1,
        taken: None,
        taken_local: None,
        complaints: vec![],
        caption: None,
    })
}

/// Appends an entry to the stream of device `n`.
pub(crate) fn append(entries: &mut Vec<Entry>, n: u8, body: Body) {
    let last = entries.iter().rev().find(|e| e.device == device(n));
    let (seq, prev) = last.map_or((1, None), |e| (e.seq + 1, Some(e.hash())));
    let lamport = entries.len() as u64 + 1;
    let mut random = [n; 10];
    random[9] = lamport as u8;
    random[8] = (lamport >> 8) as u8;
    entries.push(Entry {
        v: body.form(),
        id: EntryId::new(BORN + lamport, &random),
        survey: survey_id(),
        device: device(n),
        seq,
        lamport,
        at: stamp("2026-04-14T09:30:00.000-05:00"),
        by: "R. Ames".into(),
        prev,
        body,
    });
}

pub(crate) fn house() -> House {
    let photos: BTreeMap<Digest, Vec<u8>> =
        [b"\xff\xd8 bulkhead \xff\xd9".to_vec(), b"\xff\xd8 under the sink \xff\xd9".to_vec()]
            .into_iter()
            .map(|b| (Digest::of(&b), b))
            .collect();
    let digests: Vec<Digest> = photos.keys().copied().collect();
    let assessment = br#"{"v":1,"conditions":[]}"#.to_vec();
    let mut entries = Vec::new();
    let opened =
        Opened { label: "Elm St 3".into(), contract: None, contract_days: None, catalog: Digest::of(b"c") };
    append(&mut entries, 1, Body::Opened(opened));
    append(&mut entries, 1, taken(digests[0], photos[&digests[0]].len() as u64, "IMG_1.jpg"));
    append(&mut entries, 2, taken(digests[1], photos[&digests[1]].len() as u64, "IMG_2.jpg"));
    let answer = Answer {
        place: "kitchen".into(),
        item: "bulkhead-present".into(),
        value: Value::Choice("yes".into()),
        tolerance: None,
        entered: Some("yes".into()),
        photos: digests,
        corrects: vec![],
        reason: None,
    };
    append(&mut entries, 1, Body::Answer(answer));
    let note = Note { place: None, item: None, text: "Neighbor’s house has the same plan.".into() };
    append(&mut entries, 2, Body::Note(note));
    append(&mut entries, 1, Body::Sealed(Sealed { assessment: Digest::of(&assessment) }));
    House { entries, photos, assessment, network: b"network elm { }\n".to_vec(), key: *key().public() }
}

impl House {
    pub(crate) fn contents(&self) -> Contents<'_> {
        Contents {
            survey: survey_id(),
            label: "Elm St 3 Payload-Oxum: 0.0",
            number: 1,
            device: device(1),
            sealed_at: stamp("2026-04-14T16:42:00.000-05:00"),
            organization: Some("Invented Remodeling"),
            entries: &self.entries,
            log_position: 5,
            assessment: &self.assessment,
            network: &self.network,
            catalog: Digest::of(b"c"),
            engine: "engine 1",
            previous: None,
            pages: &[],
            sealer: Sealer::Key(&self.key),
        }
    }

    /// Sealed, as bytes.
    pub(crate) fn packet(&self) -> Vec<u8> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("p.zip");
        crate::seal(&path, &self.contents(), &mut self.photos.clone(), &key()).unwrap();
        std::fs::read(path).unwrap()
    }
}

/// A zip of these files, in this order, written the canonical way.
pub(crate) fn zip(files: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Vec::new());
    for (name, bytes) in files {
        let known = (bytes.len() as u64, crc32fast::hash(bytes));
        writer.add(name.clone(), known, &mut bytes.as_slice()).unwrap();
    }
    writer.finish().unwrap().0
}

/// Runs a script with the tests' Python; gives back what it printed. Arguments are paths.
pub(crate) fn python(script: &str, arguments: &[&Path]) -> Result<String, String> {
    #[allow(clippy::disallowed_methods, reason = "tests choose their Python by the environment")]
    let program = std::env::var("UNDERLATH_TEST_PYTHON").unwrap_or_else(|_| "python3".into());
    let hint = "install it: python3 -m venv V && V/bin/pip install bagit==1.9.0, then UNDERLATH_TEST_PYTHON=V/bin/python";
    let mut child = Command::new(&program)
        .arg("-")
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|e| panic!("{program}: {e}; {hint}"));
    child.stdin.take().unwrap().write_all(script.as_bytes()).unwrap();
    let out = child.wait_with_output().unwrap();
    let errors = String::from_utf8_lossy(&out.stderr).into_owned();
    assert!(!errors.contains("ModuleNotFoundError"), "{errors}\n{hint}");
    if out.status.success() { Ok(String::from_utf8_lossy(&out.stdout).into_owned()) } else { Err(errors) }
}
