//! Noisy families in the builder.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::Noisy;
use crate::error::NetworkError;
use crate::network::{NetworkBuilder, NodeId};

impl NetworkBuilder {
    /// Makes a node the noisy-OR of its parents, without a table over all of them.
    ///
    /// The node and each parent have two states, the second of which is "present". Each parent comes with
    /// P(node present | this parent alone present, no leak); `leak` is P(node present | no parent present).
    ///
    /// # Errors
    /// As [`Self::table`] for the nodes; a node or parent without exactly two states; a weight or leak outside
    /// 0..=1.
    pub fn noisy_or(
        &mut self,
        node: NodeId,
        parents: &[(NodeId, f64)],
        leak: f64,
    ) -> Result<(), NetworkError> {
        let ids: Vec<NodeId> = parents.iter().map(|(p, _)| *p).collect();
        self.may_take(node, &ids)?;
        for id in [node].iter().chain(&ids) {
            let (name, states) = (self.name(*id), self.width(*id) as u64);
            if states != 2 {
                return Err(NetworkError::NotTwoStates { node: name.into(), states });
            }
        }
        let fits = |x: f64, what: String| {
            let good = (0.0..=1.0).contains(&x);
            if good {
                Ok(())
            } else {
                Err(NetworkError::BadEntry { node: self.name(node).into(), row: what, value: x })
            }
        };
        fits(leak, "the leak".into())?;
        for (p, weight) in parents {
            fits(*weight, format!("the weight of {}", self.name(*p)))?;
        }
        let effects = parents.iter().map(|(_, w)| Vec::from([1.0, 0.0, 1.0 - w, *w])).collect();
        self.keep_factored(node, &ids, Noisy { leak: Vec::from([1.0 - leak, leak]), effects });
        Ok(())
    }

    /// Makes a node the noisy-MAX of its parents, without a table over all of them: each parent and the leak
    /// draw a state of the node on their own, and the node takes the highest (the last in state order).
    ///
    /// Each parent comes with one row per state of its own, one probability per state of the node: what that
    /// state of the parent makes the node draw (a state that does nothing: 1, 0, …, 0). `leak` is one such
    /// row. Rows are treated as those of [`Self::table`].
    ///
    /// # Errors
    /// As [`Self::table`].
    pub fn noisy_max(
        &mut self,
        node: NodeId,
        parents: &[(NodeId, Vec<f64>)],
        mut leak: Vec<f64>,
    ) -> Result<(), NetworkError> {
        let ids: Vec<NodeId> = parents.iter().map(|(p, _)| *p).collect();
        self.may_take(node, &ids)?;
        self.mend_rows(node, &[], &mut leak, |row| format!("{row} (the leak)"))?;
        let mut effects = Vec::with_capacity(parents.len());
        for (p, effect) in parents {
            let mut effect = effect.clone();
            self.mend_rows(node, &[*p], &mut effect, |row| row)?;
            effects.push(effect);
        }
        self.keep_factored(node, &ids, Noisy { leak, effects });
        Ok(())
    }
}
