//! The list of houses, and one house.

use tauri::State;
use views::{HouseCard, HouseView};

use crate::{Place, Refused};

/// Every house on this device.
#[tauri::command(async)]
pub(crate) fn houses(place: State<'_, Place>) -> Result<Vec<HouseCard>, Refused> {
    place.at_desk(actions::houses)
}

/// One house as it stands.
#[tauri::command(async)]
pub(crate) fn house(place: State<'_, Place>, survey: String) -> Result<HouseView, Refused> {
    place.at_desk(|desk| actions::house(desk, desk.find(&survey)?))
}
