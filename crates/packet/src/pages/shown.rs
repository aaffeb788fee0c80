//! A page as it is shown on a screen before it is signed: its pictures, and its words for whoever does not see them.

use typst::layout::{Abs, Frame, FrameItem, Point};
use typst_layout::PagedDocument;
use typst_svg::SvgOptions;

/// Lines of one height are one line, up to this much.
const SAME_LINE: f64 = 3.0;

/// A document as it is shown.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ShownPages {
    /// Each page as SVG, its letters as outlines.
    pub pictures: Vec<String>,
    /// The words of each page in the order they were set, a line for each line.
    pub texts: Vec<String>,
}

impl ShownPages {
    pub(super) fn of(document: &PagedDocument) -> Self {
        let pages = document.pages();
        let options = SvgOptions { render_bleed: false, pretty: false };
        Self {
            pictures: pages.iter().map(|page| typst_svg::svg(page, &options)).collect(),
            texts: pages.iter().map(|page| text(&page.frame)).collect(),
        }
    }
}

fn text(frame: &Frame) -> String {
    let mut said = (String::new(), Abs::zero());
    walk(frame, Point::zero(), &mut said);
    said.0
}

fn walk(frame: &Frame, at: Point, said: &mut (String, Abs)) {
    for (offset, item) in frame.items() {
        let at = at + *offset;
        match item {
            FrameItem::Group(group) => walk(&group.frame, at, said),
            FrameItem::Text(run) => {
                let (text, before) = said;
                if !text.is_empty() {
                    let same = (at.y - *before).to_pt().abs() < SAME_LINE;
                    text.push(if same { ' ' } else { '\n' });
                }
                text.push_str(&run.text);
                *before = at.y;
            }
            _ => {}
        }
    }
}
