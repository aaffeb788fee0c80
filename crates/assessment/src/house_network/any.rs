//! "At some place": a hidden node that is there when any of several is.

use inference::{NetworkError, NodeId};

use super::{Builder, NO_YES};

impl Builder<'_> {
    /// The node that is on when any of `nodes` is: itself where there is only one. Made pair by pair, so that no
    /// table grows with the number of places and the places stay apart from each other.
    pub(super) fn any(&mut self, name: &str, nodes: &[NodeId]) -> Result<Option<NodeId>, NetworkError> {
        let (Some(first), last) = (nodes.first().copied(), nodes.len()) else { return Ok(None) };
        let mut so_far = first;
        for (n, node) in nodes.iter().enumerate().skip(1) {
            let name = if n + 1 == last { format!("any.{name}") } else { format!("any.{name}.{}", n + 1) };
            so_far = match self.any.get(&name) {
                Some(made) => *made,
                None => {
                    let or = self.nb.node(&name, &NO_YES)?;
                    self.nb.table(or, &[so_far, *node], vec![1.0, 0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 1.0])?;
                    self.any.insert(name, or);
                    or
                }
            };
        }
        Ok(Some(so_far))
    }
}
