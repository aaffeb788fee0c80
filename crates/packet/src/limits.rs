//! How large a packet may be. A limit keeps a hostile or broken file from filling memory; each is far above what a
//! house needs (our own choice, no source).

/// Files in one packet.
pub const FILES: usize = 100_000;
/// Letters of one path in the zip.
pub const PATH: usize = 200;
/// Bytes of `bagit.txt`, of `bag-info.txt`, of the seal and of the certificate.
pub const TAG_TEXT: u64 = 64 << 10;
/// Bytes of each manifest: 100,000 lines of about 220 letters.
pub const MANIFEST: u64 = 32 << 20;
/// Bytes of `data/packet.json`, which names every photograph.
pub const PACKET_JSON: u64 = 64 << 20;
/// Bytes of `data/log.jsonl`; held in memory while opening.
pub const LOG: u64 = 256 << 20;
/// Bytes of one line of the log.
pub const LOG_LINE: usize = 4 << 20;
/// Bytes of `data/assessment.json`; held in memory while opening.
pub const ASSESSMENT: u64 = 256 << 20;
/// Letters of the name in a household's signature.
pub const NAME: usize = 120;
/// Lines in it.
pub const SIGNATURE_STROKES: usize = 400;
/// Points of all its lines.
pub const SIGNATURE_POINTS: usize = 10_000;
/// Bytes of `data/household-signature.json`.
pub const SIGNATURE: u64 = 256 << 10;
/// Bytes of each file in `data/schemas`.
pub const SCHEMA: u64 = 1 << 20;
/// Bytes of `data/network.bif`; held in memory while opening.
pub const NETWORK: u64 = 64 << 20;
/// Bytes of one file of `data/pages`.
pub const PAGES: u64 = 256 << 20;
/// Files of `data/pages`.
pub const PAGE_FILES: usize = 64;
/// Files in a firm's folder of templates.
pub const TEMPLATES: usize = 32;
/// Bytes of one of them.
pub const TEMPLATE: usize = 1 << 20;
/// Bytes of one photograph.
pub const PHOTO: u64 = (1 << 30) - 1;
/// Bytes copied at once; the memory one file costs while sealing and opening.
pub const CHUNK: usize = 128 << 10;
