//! What the photograph crate says in English by itself is what its messages say in English, and none of it is English in
//! Spanish.

use photo::{Complaint, Damage, Looks, PhotoError, Problem, Reason};
use words::{Language, Message, Words};

fn complaints() -> Vec<Complaint> {
    let shown = || "2026".to_owned();
    let mut all: Vec<Complaint> = reasons().into_iter().map(Complaint::NoPreview).collect();
    all.extend(damages().map(|what| Complaint::Damaged { at: 12_345, what }));
    all.extend([
        Complaint::Blocks { count: 3 },
        Complaint::Exif { faults: "Truncated; Unexpected next IFD".into() },
        Complaint::Orientation { value: 36_865 },
        Complaint::OrientationNoNumber,
        Complaint::Place,
        Complaint::PlaceBlanked,
        Complaint::PlaceUnread,
        Complaint::ClockNotSet { shown: shown() },
        Complaint::NoTime { shown: shown() },
        Complaint::NoOffset { shown: shown() },
        Complaint::NoFraction { shown: shown() },
        Complaint::TimeRange,
        Complaint::Behind { bytes: 1_234_567 },
        Complaint::Stops { at: 1_234_567 },
        Complaint::DataDamaged { at: 1_234_567 },
        Complaint::Frames { count: 2 },
        Complaint::PartMissing,
    ]);
    all
}

fn damages() -> impl Iterator<Item = Damage> {
    [
        Damage::SecondStart,
        Damage::ShortSegment,
        Damage::LongSegment,
        Damage::UnknownSegment,
        Damage::ShortFrame,
        Damage::EndsBefore,
        Damage::StrayData,
        Damage::NoHeader,
        Damage::NoPictureFirst,
        Damage::UnknownChunk,
        Damage::StopsBeforeLast,
        Damage::Moving,
        Damage::NotOneWhole,
        Damage::NoSizeSaid,
    ]
    .into_iter()
}

fn reasons() -> Vec<Reason> {
    vec![
        Reason::NotDecoded { kind: "HEIC" },
        Reason::Memory { needed: 2_796, limit: 176 },
        Reason::Components { count: 2 },
        Reason::Bits { bits: 12 },
        Reason::Process { process: 9 },
        Reason::TwoSizes,
        Reason::Decoder("DHT 3".into()),
    ]
}

fn problems() -> Vec<Problem> {
    let looks = [
        Looks::Jpeg,
        Looks::Png,
        Looks::WebP,
        Looks::Heic,
        Looks::Avif,
        Looks::Gif,
        Looks::Tiff,
        Looks::Bmp,
        Looks::Jpeg2000,
        Looks::JpegXl,
        Looks::Film,
        Looks::Pdf,
        Looks::Zip,
        Looks::Markup,
        Looks::Text,
        Looks::Zeros,
        Looks::Unknown([0x7f, 0x45, 0x4c, 0]),
    ];
    let (at, width, height) = (2_000, 25_001, 10_000);
    let mut all: Vec<Problem> = looks.into_iter().map(Problem::NotAPhotograph).collect();
    all.extend(damages().map(|what| Problem::Damaged { at, what }));
    all.extend(reasons().into_iter().map(|reason| Problem::Undecodable { reason }));
    all.extend([
        Problem::Empty,
        Problem::NoCopy(Looks::Heic),
        Problem::CutOff { at, bytes: 2_100 },
        Problem::NoSize { at, width: 0, height },
        Problem::TooManyPixels { at, width, height, pixels: 250_010_000, limit: photo::MAX_PIXELS },
        Problem::TooNarrow { at, width, height: 9, limit: photo::MAX_RATIO },
        Problem::Undrawn { reason: "1".into() },
        Problem::Unencodable { reason: "1".into() },
    ]);
    all
}

/// Words that are the same in both languages, and so say nothing of a sentence that was left in English.
fn telling(english: &str) -> impl Iterator<Item = &str> {
    let bare = |word: &str| word.chars().any(|c| c.is_ascii_lowercase()) && word.len() > 3;
    english.split(|c: char| !c.is_alphabetic()).filter(move |word| bare(word))
}

#[test]
fn every_complaint_and_refusal_is_said_in_english_as_it_says_itself_and_in_spanish_in_other_words() {
    let named = PhotoError { photo: "sink.jpg".into(), problem: Problem::Empty };
    let all: Vec<(String, Message)> = complaints()
        .iter()
        .map(|odd| (odd.to_string(), odd.said()))
        .chain(problems().iter().map(|problem| (problem.to_string(), problem.said())))
        .chain([(named.to_string(), named.said())])
        .collect();
    let (english, spanish) = (Words::of(Language::En), Words::of(Language::Es));
    for (itself, message) in all {
        assert_eq!(english.say(&message), itself, "{}", message.id);
        let other = spanish.say(&message);
        let (words, left) =
            (telling(&itself).count(), telling(&itself).filter(|w| other.contains(w)).count());
        assert!(!other.contains("photo-") && left * 2 < words, "{}: {other}", message.id);
    }
}
