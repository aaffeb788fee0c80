//! Stories: the job from end to end, as people do it.

mod apart;
mod bad_input;
mod bad_packet;
mod bad_records;
mod closed;
pub(crate) mod demo;
mod demolition;
mod field;
mod full_disk;
mod guarded;
mod household_sheet;
mod keys;
mod line;
mod made_up;
mod merge;
mod office;
mod office_door;
mod office_record;
mod overlay;
mod pages;
mod photo_marks;
mod photographs;
mod published;
mod readme;
mod same_bytes;
mod several;
mod simulate;
mod steps;
mod suppose;
mod track_record;
mod two_tablets;
mod walk_order;
mod watched;
mod whole_job;

#[path = "../../crates/review/tests/simulated/firm.rs"]
#[allow(dead_code, reason = "shared with the tests of review")]
mod firm;
