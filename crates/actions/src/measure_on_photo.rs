//! A length measured on a photograph beside something flat of known size: what it is, what it may be off, and, if
//! wanted, an answer with that tolerance and the picture as its evidence.

use plane::{Camera, Care, Measured, PHONE_FOCAL, Paper, PlaneError, Point, measure};
use survey::log::{Body, Entry, PhotoMark, Shape, Spot};
use survey::units::Length;
use survey::{Digest, SurveyId};
use words::msg;

use crate::mark::{checked, seen};
use crate::record::{Recorded, record};
use crate::{Desk, Entered, Error, Kind, Kit};

/// What was marked on a photograph.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnPhoto {
    /// What lies in the plane.
    pub paper: Paper,
    /// Its corners in order around it, the first edge its width; pixels of the upright picture.
    pub corners: [Point; 4],
    /// Ends of what is measured.
    pub ends: [Point; 2],
    /// How far the ends may stand off the paper's plane, ± two standard deviations; as usual if not said.
    pub off_plane: Option<Length>,
}

/// A length measured on a photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredOnPhoto {
    /// The length.
    pub length: Length,
    /// ± two standard deviations, up to the next sixteenth of an inch.
    pub tolerance: Length,
    /// One standard deviation before rounding, inches.
    pub sigma: f64,
    /// How far the camera stood, as the picture tells, inches: to be compared with what one remembers.
    pub distance: f64,
    /// True when the picture does not say its focal length and that of a phone was taken.
    pub focal_assumed: bool,
    /// The marks that were kept with the photograph; none if nothing was recorded.
    pub marks: Vec<Entry>,
    /// The answer; none if it belongs to no item.
    pub recorded: Option<Recorded>,
}

/// Measures on a photograph of the house. With an item, or its key at a place, the length is recorded as its answer and
/// the marks are kept beside the photograph; without one nothing is recorded.
///
/// # Errors
/// A photograph that is not there, marks that give no length, or an answer that cannot be recorded; then nothing is.
pub fn measure_on_photo(
    desk: &mut Desk,
    survey: SurveyId,
    photo: Digest,
    marks: &OnPhoto,
    item: Option<&str>,
    kit: &mut Kit<'_>,
) -> Result<MeasuredOnPhoto, Error> {
    let picture = desk.picture(survey)?;
    let of = seen(&picture, photo)?;
    let focal = focal(desk, photo)?;
    let camera = Camera {
        width: f64::from(of.taken.width),
        height: f64::from(of.taken.height),
        focal: focal.map_or(PHONE_FOCAL, f64::from),
    };
    let usual = Care::default();
    let off_plane = marks.off_plane.map_or(usual.off_plane, |two_sigma| two_sigma.inches() / 2.0);
    let care = Care { off_plane, ..usual };
    let found = measure(marks.paper, marks.corners, marks.ends, camera, &care).map_err(told)?;
    let (Some(length), Some(tolerance)) = (found.length(), found.tolerance()) else {
        return Err(told(PlaneError::NotANumber));
    };
    let Measured { sigma, distance, .. } = found;
    let focal_assumed = focal.is_none();
    let mut done = MeasuredOnPhoto {
        length,
        tolerance,
        sigma,
        distance,
        focal_assumed,
        marks: Vec::new(),
        recorded: None,
    };
    let Some(item) = item else { return Ok(done) };

    let spot = |p: Point| Spot::from_pixels(p.x, p.y).ok_or_else(|| told(PlaneError::NotANumber));
    let [a, b, c, d] = marks.corners;
    let corners = [spot(a)?, spot(b)?, spot(c)?, spot(d)?];
    let paper = Shape::Paper { corners, width: marks.paper.width, height: marks.paper.height };
    let [from, to] = [spot(marks.ends[0])?, spot(marks.ends[1])?];
    let dimension = Shape::Dimension { from, to, length, tolerance: Some(tolerance) };
    let shapes = [checked(of, paper)?, checked(of, dimension)?];
    let entered = Entered {
        answer: vec![length.exact_mm()],
        tolerance: Some(tolerance.exact_mm()),
        reason: Some(desk.words().say(&msg!("measured-on-photo", photo = photo.short()))),
        ..Entered::default()
    };
    // Refused before anything is kept.
    crate::check_answer(desk, survey, item, &entered)?;
    for mark in shapes {
        done.marks.push(desk.append(survey, Body::Mark(PhotoMark { photo, mark }), kit)?);
    }
    done.recorded = Some(record(desk, survey, item, &entered, &[photo], kit)?);
    Ok(done)
}

/// The focal length the camera wrote into the original.
fn focal(desk: &Desk, photo: Digest) -> Result<Option<u16>, Error> {
    let bytes = std::fs::read(desk.store.blobs().path(photo)).map_err(|e| {
        let message = msg!("error-photo-unread", photo = photo.short(), said = e.to_string());
        Error::new(Kind::Damaged, message)
    })?;
    Ok(photo::intake(&bytes, "")?.focal_35mm)
}

fn told(error: PlaneError) -> Error {
    let (message, hint) = match error {
        PlaneError::NotANumber => (msg!("error-plane-number"), msg!("error-plane-number-hint")),
        PlaneError::NoOutline => (msg!("error-plane-outline"), msg!("error-plane-outline-hint")),
        PlaneError::BeyondHorizon => (msg!("error-plane-horizon"), msg!("error-plane-horizon-hint")),
        PlaneError::NoLength => (msg!("error-plane-no-length"), msg!("error-plane-no-length-hint")),
        PlaneError::TooUncertain { inches, give_or_take } => (
            msg!("error-plane-uncertain", inches = inches, give_or_take = give_or_take),
            msg!("error-plane-uncertain-hint"),
        ),
    };
    Error::new(Kind::Input, message).hint(hint)
}
