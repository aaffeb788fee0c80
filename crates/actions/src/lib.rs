//! What a person does in the house, one file for each: open a survey, send the household its sheet and take its
//! answers in, record an answer, take a photograph in, show, assess, ask what to look at next, seal, declare
//! demolition.
//!
//! The hinge between rooms and doors: plain data in and out, no terminal, window or network. Clock and random bits
//! are handed in with [`Kit`].

mod assess;
mod calculate;
mod catalog_files;
mod demolition;
mod desk;
mod device_key;
mod enter;
mod error;
mod error_from;
mod fits;
mod hand_over;
mod household_answers;
mod household_sheet;
mod household_signs;
mod import_photo;
mod key_words;
mod kit;
mod leave;
mod mark;
mod marked_copy;
mod measure_on_photo;
mod merge;
mod next;
mod note;
mod odds_now;
mod office_catalog;
mod office_link;
mod open_survey;
mod order;
#[cfg_attr(not(feature = "pdf"), allow(dead_code, reason = "gathered only where pages are made"))]
mod pages;
mod photos;
mod picture;
mod place;
mod previews;
mod promise;
mod record;
mod seal;
mod send;
mod settings;
mod show;
mod start;
mod suppose;
mod tap;
mod templates;
mod undo;
mod walk;
mod weigh;

pub use assess::{Assessed, assess};
pub use calculate::{calculate, calculation, with_books};
pub use catalog_files::{CatalogFiles, OVERLAY_FOLDER, overlay_of, to_travel, word_files};
pub use demolition::{declare_demolition, withdraw_demolition};
pub use desk::Desk;
pub use device_key::{
    CERTIFICATE_FILE, DeviceKey, FIRM_FILE, NewFile, accept_certificate, accept_receipt, begin_new,
    device_key, new_device_key, request, write_new,
};
pub use enter::Entered;
pub use error::{Error, Kind};
pub use error_from::{file_trouble, forecast as forecast_trouble, packet_hint};
pub use fits::{fit, fits};
pub use hand_over::{Handed, hand_over};
pub use household_answers::{TakenAnswer, TakenAnswers, misfit, take_answers, who_answered};
pub use household_sheet::{MadeSheet, SheetOptions, household_sheet};
pub use household_signs::{household_page, sign_household};
pub use import_photo::{Clocks, Imported, import_photo};
pub use key_words::{certificate_ends, certificate_said, fault_said, key_said};
pub use kit::{Clock, Kit, Random};
pub use leave::{Leaving, before_leaving};
pub use mark::{Marked, PhotoShown, mark_photo, marks, photo_of, photo_shown, take_mark_back};
pub use marked_copy::{MarkedCopy, marked, marked_copy};
pub use measure_on_photo::{MeasuredOnPhoto, OnPhoto, measure_on_photo};
pub use merge::{Merged, keep_original, merge};
pub use next::{Ask, Next, next};
pub use note::note;
pub use odds_now::{money_now, odds_now};
pub use office_catalog::{published_here, published_words, take_published};
pub use office_link::{
    Office, link_in_photo, link_view, office, pair_ask, paired, read_link, to_office, unpair,
};
pub use open_survey::{NewSurvey, open_survey};
pub use order::{StopCard, Toward, move_stop, order_as_listed, walk_order};
pub use photos::{Drawn, Sheet, drawn, measured_view, on_photo, photo_marked, photo_taken, photos};
pub use picture::{Shown, picture};
pub use place::{PlaceCard, Placed, about_card, add_place, name_place, places, take_out_place};
pub use previews::Mended;
pub use promise::promise;
pub use record::{Recorded, check_answer, record};
/// The language of a household's sheet, and how a file is known to be one.
pub use sheet::{Language as SheetLanguage, MARK as SHEET_MARK, MOST_BYTES as MOST_ANSWER_BYTES};
/// The moment type of [`Clock`].
pub use survey::Stamp;

/// The catalog built into the program.
pub fn builtin_catalog() -> Result<survey::catalog::Catalog, survey::catalog::CatalogError> {
    survey::catalog::builtin()
}
pub use seal::{
    OfferedPromise, SealOptions, SealedPacket, Sealing, begin_sealing, going, packet_of, packet_view,
    packets, seal,
};
pub use send::{Live, Outgoing, outgoing, sendings, sent, trouble_said};
pub use settings::{screens, set, settings};
pub use show::{Remark, house, houses, remarks};
pub use start::{NewHouse, Sure, start_form, start_house, who};
pub use suppose::{Suppositions, Told, suppose};
pub use tap::{
    CheckShown, add_place_here, answer, move_stop_here, name_place_here, remark, show_check, take_back,
    take_out_place_here,
};
pub use undo::{TakenBack, undo};
pub use walk::{leave_house, left_house, read_length, walk};
pub use weigh::{Kept, leaving, look_next, weigh};
