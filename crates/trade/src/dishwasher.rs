//! How a dishwasher may drain at the sink: IPC 802.1.6 and IRC P2717.2; UPC 807.4 and 419.2, in the plumbing books.
//! The plumber and the dishwasher's own sheet decide.

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::cite;
use crate::error::TradeError;
use crate::sheet::Limit;

/// A way to connect the dishwasher's drain.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Method {
    /// Through an air-gap fitting at or above the flood level, then to the disposer's inlet or a tailpiece wye.
    AirGap,
    /// Through an air gap, but joining the drain after the disposer.
    AirGapDownstreamOfDisposer,
    /// Raised to the underside of the rim or counter and fastened there, without an air gap.
    HighLoop,
}

impl Method {
    /// Every method.
    pub const ALL: [Self; 3] = [Self::AirGap, Self::AirGapDownstreamOfDisposer, Self::HighLoop];
    /// Words that [`Method::parse`] knows.
    pub const WORDS: &'static str = "air_gap, air_gap_downstream_of_disposer, high_loop";

    /// The word of the method.
    pub const fn word(self) -> &'static str {
        match self {
            Self::AirGap => "air_gap",
            Self::AirGapDownstreamOfDisposer => "air_gap_downstream_of_disposer",
            Self::HighLoop => "high_loop",
        }
    }
    /// The words shown.
    pub const fn shown(self) -> Phrase {
        match self {
            Self::AirGap => Phrase("trade-air-gap-fitting"),
            Self::AirGapDownstreamOfDisposer => Phrase("trade-air-gap-fitting-joins"),
            Self::HighLoop => Phrase("trade-line-raised-fastened-under"),
        }
    }
    /// The method by its word.
    pub fn parse(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|m| m.word() == word)
    }
}

/// Table that holds a book's main rule.
const RULE: &str = "dishwasher-connection";

/// Whether the published rule names this way, and the rule.
///
/// The IPC names two places to connect, a wye on the sink's tailpiece or the disposer's own dishwasher inlet; the
/// pipe after a disposer is neither, so it counts as not named there.
///
/// # Errors
/// A book without the rule.
pub fn is_named(book: &Book, method: Method) -> Result<(bool, Limit), TradeError> {
    let id = match method {
        Method::AirGap | Method::HighLoop => RULE,
        Method::AirGapDownstreamOfDisposer => "dishwasher-after-disposer",
    };
    let (named, mut limit) = cite::row(book, id, method.word())?;
    let is = if named > 0.0 { Phrase("trade-named") } else { Phrase("trade-not-named") };
    limit.value = cite::labeled(method.shown(), is);
    Ok((named > 0.0, limit))
}

/// The ways a book names, in words.
fn named(book: &Book) -> Result<Said, TradeError> {
    let mut out: Option<Said> = None;
    for method in Method::ALL {
        if is_named(book, method)?.0 {
            let way = Said::from(method.shown());
            out = Some(match out {
                None => way,
                Some(before) => say!("trade-or", before = before, next = way),
            });
        }
    }
    Ok(out.unwrap_or_else(|| say!("trade-none")))
}

/// A book's main rule, with the ways it names.
///
/// # Errors
/// As [`is_named`].
pub fn rule(book: &Book) -> Result<Limit, TradeError> {
    Ok(Limit::of(book, cite::table(book, RULE)?, named(book)?))
}

/// One way held against a book, or, where none is chosen, the ways it names; in a sentence.
///
/// # Errors
/// As [`is_named`].
pub fn sentence(book: &Book, method: Option<Method>) -> Result<Said, TradeError> {
    let Some(method) = method else {
        let rule = rule(book)?;
        return Ok(say!(
            "trade-dishwasher-drain-under",
            title = &book.title,
            value = rule.value,
            clause = rule.clause,
            edition = rule.edition
        ));
    };
    let (is, limit) = is_named(book, method)?;
    let place = Said::run([
        "(".into(),
        Said::List(alloc::vec![Said::from(&limit.clause), limit.edition]),
        ")".into(),
    ]);
    Ok(if is {
        say!("trade-dishwasher-drain-among-ways", shown = method.shown(), title = &book.title, place = place)
    } else {
        let ways = named(book)?;
        let title = &book.title;
        say!(
            "trade-dishwasher-drain-not-among",
            shown = method.shown(),
            title = title,
            place = place,
            ways = ways
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn the_upc_wants_an_air_gap_and_the_ipc_takes_a_high_loop() {
        // IPC 802.1.6 / IRC P2717.2 (2015); California Plumbing Code 2013 (UPC 2012) 807.4, 419.2
        let shelf = catalog().shelf;
        let (ipc, upc) = (shelf.book("ipc-2021").unwrap(), shelf.book("upc-2012").unwrap());
        let named = |book, method| is_named(book, method).unwrap().0;
        assert!(named(ipc, Method::HighLoop) && named(ipc, Method::AirGap));
        assert!(named(upc, Method::AirGap) && !named(upc, Method::HighLoop));
        assert_eq!(is_named(upc, Method::AirGapDownstreamOfDisposer).unwrap().1.clause, "419.2");
    }

    #[test]
    fn a_way_that_is_not_named_says_which_are() {
        let shelf = catalog().shelf;
        let (ipc, upc) = (shelf.book("ipc-2021").unwrap(), shelf.book("upc-2012").unwrap());
        let no = sentence(upc, Some(Method::HighLoop)).unwrap();
        assert!(
            no.contains("not among the ways UPC names (807.4") && no.ends_with("an air-gap fitting."),
            "{no}"
        );
        assert!(sentence(ipc, Some(Method::HighLoop)).unwrap().contains(": among the ways"));
        let open = sentence(ipc, None).unwrap();
        assert!(open.contains("air-gap fitting, or a line raised"), "{open}");
    }
}
