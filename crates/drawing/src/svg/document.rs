//! A finished drawing as one element.

use alloc::string::String;
use core::fmt::Write;

use super::canvas::{Canvas, escape, put};
use super::lettering::SPACING;
use crate::setting::Width;

/// The element: its size, its words for those who hear it, its hatches and its shapes.
pub(super) fn document(
    canvas: Canvas<'_>,
    (width, height): (Width, f64),
    prefix: &str,
    title: &str,
    said: &str,
) -> String {
    let px = width.px();
    let (patterns, body) = canvas.into_parts();
    let mut out = String::new();
    let _ = write!(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ");
    put(&mut out, px);
    out.push(' ');
    put(&mut out, height);
    for (name, px) in [("width", px), ("height", height)] {
        let (length, unit) = width.outside(px);
        let _ = write!(out, "\" {name}=\"");
        put(&mut out, length);
        out.push_str(unit);
    }
    let _ = write!(out, "\" role=\"img\" aria-labelledby=\"{prefix}t {prefix}w\">\n<title id=\"{prefix}t\">");
    escape(&mut out, title);
    let _ = write!(out, "</title>\n<desc id=\"{prefix}w\">");
    escape(&mut out, said);
    out.push_str("</desc>\n");
    if !patterns.is_empty() {
        let _ = write!(out, "<defs>\n{patterns}</defs>\n");
    }
    let _ = write!(
        out,
        "<g font-family=\"'Underlath Lettering','Routed Gothic','DejaVu Sans',sans-serif\" \
         letter-spacing=\"{SPACING}\" stroke-linejoin=\"round\">\n{body}</g>\n</svg>\n"
    );
    out
}
