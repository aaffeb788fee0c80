//! The catalog as it is published to tablets.

use keys::CatalogVersion;
use serde::Deserialize;
use serde_json::Value;
use views::link_shape::{PublishedView, VersionView};

use super::{Arguments, Call, Nothing, write};
use crate::OfficeError;
use crate::learning::Hand;

pub(super) fn published(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Nothing {} = args.read()?;
    told(call)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Publish {
    #[serde(default)]
    again: bool,
}

pub(super) fn publish(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Publish { again } = args.read()?;
    call.desk.publish(call.shelf, again, Hand { by: call.by, now: call.now })?;
    told(call)
}

fn told(call: &Call<'_>) -> Result<Value, OfficeError> {
    let standing = call.desk.standing(call.shelf)?;
    let view = |version: CatalogVersion| VersionView {
        number: u32::try_from(version.number).unwrap_or(u32::MAX),
        at: version.made_at.to_string(),
        by: version.by,
        houses: u32::try_from(version.houses.len()).unwrap_or(u32::MAX),
        catalog: version.becomes.short(),
    };
    write(&PublishedView { last: standing.last.map(view), differs: standing.differs })
}
