//! Lettering for a terminal: sections in plain characters.

mod bore;
mod calendar;
mod ceiling;
mod fall;
mod grid;
mod load;
mod reliability;
mod sink;
#[cfg(test)]
mod tests;
mod wall;

use alloc::string::String;

use survey::Said;
use trade::picture::Picture;

use self::grid::cut;
pub use self::reliability::reliability_text;
use crate::said::{Say, title};

/// Fewest and most columns.
const COLUMNS: [usize; 2] = [40, 78];

/// A picture in lines of characters one column wide, plain ASCII but for accented letters, each ended and without trailing spaces, no wider than `columns` (held between
/// 40 and 78). Same input, same bytes.
pub fn text(picture: &Picture, columns: usize, say: &dyn Fn(&Said) -> String) -> String {
    let picture = &picture.clone().spoken(say);
    let columns = columns.clamp(COLUMNS[0], COLUMNS[1]);
    let drawn = match picture {
        Picture::Sink(p) => sink::draw(p, columns, Say(say)),
        Picture::Fall(p) => fall::draw(p, columns, Say(say)),
        Picture::Bore(p) => bore::draw(p, columns, Say(say)),
        Picture::Load(p) => load::draw(p, columns, Say(say)),
        Picture::Wall(p) => wall::draw(p, columns, Say(say)),
        Picture::Calendar(p) => calendar::draw(p, columns, Say(say)),
        Picture::Ceiling(p) => ceiling::draw(p, columns, Say(say)),
    };
    let mut out = cut(&say(&title(picture)), columns);
    out.push_str("\n\n");
    out.push_str(&drawn.into_text());
    out
}
