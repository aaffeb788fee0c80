//! Plain data for screens and pages: built from picture, catalog and frozen forecast in the language asked for;
//! formatted here where the words are the same everywhere, so that no screen parses a length, computes or decides.
//!
//! The types of [`shape`] and of the modules `*_shape` are exported to `ui/src/lib/bindings`; a test compares.

pub mod chances;
pub mod demolition;
pub mod fit_shape;
pub mod fits;
pub mod house;
pub mod link;
pub mod link_shape;
pub mod marks;
pub mod office;
pub mod office_shape;
pub mod packet_shape;
pub mod photo_shape;
pub mod photos;
pub mod phrases;
pub mod record_shape;
pub mod settings_shape;
pub mod shape;
pub mod walk;
pub mod walk_shape;

pub use house::{assessment_view, house_card, house_view};
pub use shape::{
    AssessmentView, CardPacketView, ConditionView, DaysView, DemolitionView, FrozenView, HouseCard,
    HouseView, MoneyView, OddsNowView, RivalView, RowKind, RowView, SetAsideView, StationView, TakenOutView,
    WithdrawnView,
};
