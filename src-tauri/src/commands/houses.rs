//! The list of houses, and one house.

use tauri::State;
use views::{HouseCard, HouseView};

use crate::{Place, Refused};

/// Every house on this device.
#[tauri::command(async)]
pub(crate) fn houses(place: State<'_, Place>, language: &str) -> Result<Vec<HouseCard>, Refused> {
    place.at_desk(language, actions::houses)
}

/// One house as it stands, in the language the screens are in.
#[tauri::command(async)]
pub(crate) fn house(place: State<'_, Place>, language: &str, survey: &str) -> Result<HouseView, Refused> {
    place.at_desk(language, |desk| actions::house(desk, desk.find(survey)?))
}
