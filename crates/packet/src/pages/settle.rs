//! Setting a document until its page numbers stand still.
//!
//! The compiler lays a document out, looks whether what it was told of itself (page numbers and how many there are) is so,
//! and lays it out again where it is not. What it worked out the first time it keeps for the second, and the first document
//! too: quick, and for a house with hundreds of photographs more memory than a tablet has to spare. Such a document is
//! laid out here pass by pass, and what came of a pass is let go before the next, but for what it tells of itself.

use std::sync::Arc;

use typst::World;
use typst::comemo::{self, Track as _};
use typst::diag::{SourceDiagnostic, SourceResult};
use typst::ecow::{EcoVec, eco_vec};
use typst::engine::{Engine, Route, Sink, Traced};
use typst::foundations::{Output as _, StyleChain, Target, TargetElem};
use typst::introspection::{EmptyIntrospector, Introspector, MAX_ITERS};
use typst::syntax::Span;
use typst::utils::Protected;
use typst_layout::{PagedDocument, PagedIntrospector};

use super::world::Desk;

/// Sets the document of a desk; `let_go` where memory counts for more than time.
pub(super) fn settled(desk: &Desk<'_>, let_go: bool) -> Result<PagedDocument, EcoVec<SourceDiagnostic>> {
    let set = if let_go { pass_by_pass(desk) } else { typst::compile(desk).output };
    // What was worked out on the way is not needed to write it.
    comemo::evict(0);
    set
}

/// As `typst::compile` has it (typst 0.15, `compile_impl`), with its cache emptied after each pass.
fn pass_by_pass(desk: &Desk<'_>) -> SourceResult<PagedDocument> {
    let world: &dyn World = desk;
    let world = world.track();
    let library = world.library();
    let traced = Traced::default();
    let base = StyleChain::new(&library.styles);
    let target = TargetElem::target.set(Target::Paged).wrap();
    let styles = base.chain(&target);
    let main = world
        .source(world.main())
        .map_err(|e| eco_vec![SourceDiagnostic::error(Span::detached(), e.to_string())])?;
    let mut sink = Sink::new();
    let route = Route::default();
    let content =
        typst_eval::eval(world, library, traced.track(), sink.track_mut(), route.track(), &main)?.content();
    let mut before: Option<Arc<PagedIntrospector>> = None;
    let mut pass = 0;
    loop {
        pass += 1;
        let known: &dyn Introspector = match &before {
            Some(known) => known.as_ref(),
            None => &EmptyIntrospector,
        };
        let constraint = comemo::Constraint::new();
        let mut subsink = Sink::new();
        let mut engine = Engine {
            library,
            world,
            introspector: Protected::new(known.track_with(&constraint)),
            traced: traced.track(),
            sink: subsink.track_mut(),
            route: Route::default(),
        };
        let document = PagedDocument::create(&mut engine, &content, styles)?;
        let told = Arc::clone(document.introspector());
        // A firm's own template may never stand still; its last pass is taken then, as the compiler takes it.
        if pass == MAX_ITERS || constraint.validate(told.as_ref() as &dyn Introspector) {
            sink.extend_from_sink(subsink);
            let delayed = sink.delayed();
            return if delayed.is_empty() { Ok(document) } else { Err(delayed) };
        }
        drop(document);
        comemo::evict(0);
        before = Some(told);
    }
}
