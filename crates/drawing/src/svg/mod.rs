//! SVG: a document for each picture, with its result in words for those who hear it.

mod bore;
mod calendar;
mod canvas;
mod ceiling;
mod chances;
mod column;
mod document;
mod fall;
mod key;
mod lettering;
mod load;
mod parts;
mod path;
mod pens;
mod plumb;
mod reliability;
mod sink;
mod sink_shapes;
#[cfg(test)]
mod tests;
mod wall;

use alloc::string::String;

use survey::Said;
use trade::picture::Picture;

use self::canvas::Canvas;
pub use self::canvas::put;
pub use self::chances::{bars, dots};
use self::document::document;
pub use self::plumb::{plumbed_bars, plumbed_dots};
pub use self::reliability::reliability;
use crate::said::{Say, description, title};
use crate::setting::{Palette, Width};

/// Below this many px a drawing is laid out for a phone.
const NARROW: f64 = 520.0;

/// A picture as one SVG element, to stand in a document or alone.
///
/// `prefix` goes before every id in it, so that several drawings can stand in one document; what is no letter, digit,
/// hyphen or underscore is left out of it. The element has `role="img"`, a title, and a description that says the
/// result in words. It refers to nothing outside itself and carries no style and no script. Same input, same bytes.
pub fn svg(
    picture: &Picture,
    width: Width,
    palette: Palette,
    prefix: &str,
    say: &dyn Fn(&Said) -> String,
) -> String {
    let picture = &picture.clone().spoken(say);
    let prefix = tidy(prefix);
    let px = width.px();
    let mut canvas = Canvas::new(palette, &prefix, Say(say));
    let height = draw(&mut canvas, picture, px);
    document(canvas, (width, height), &prefix, &say(&title(picture)), &say(&description(picture)))
}

/// Draws; gives the height.
fn draw(canvas: &mut Canvas<'_>, picture: &Picture, px: f64) -> f64 {
    match picture {
        Picture::Sink(p) => sink::draw(canvas, p, px),
        Picture::Fall(p) => fall::draw(canvas, p, px),
        Picture::Bore(p) => bore::draw(canvas, p, px),
        Picture::Load(p) => load::draw(canvas, p, px),
        Picture::Wall(p) => wall::draw(canvas, p, px),
        Picture::Calendar(p) => calendar::draw(canvas, p, px),
        Picture::Ceiling(p) => ceiling::draw(canvas, p, px),
    }
}

/// A prefix that is a name in XML.
fn tidy(prefix: &str) -> String {
    let mut tidy: String =
        prefix.chars().filter(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_')).collect();
    if !tidy.starts_with(|c: char| c.is_ascii_alphabetic()) {
        tidy.insert(0, 'd');
    }
    tidy
}
