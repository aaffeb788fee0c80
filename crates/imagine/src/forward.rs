//! Forward sampling: every parent before its children, one draw for each node.

use inference::{Network, NodeId};

use crate::stream::Stream;

/// State index of every node; `None` while it has none.
pub(crate) type States = Vec<Option<usize>>;

/// Most tries to meet a condition by drawing again; beyond it the condition counts as one that cannot be met.
pub(crate) const TRIES: u32 = 20_000;

/// Draws one node given its parents, which must have their states.
pub(crate) fn draw_node(net: &Network, node: NodeId, states: &States, stream: &mut Stream) -> usize {
    let n = &net.nodes()[node];
    let width = n.states.len();
    let of = |parent: &NodeId| states[*parent].unwrap_or(0);
    let given: Vec<usize> = n.parents.iter().map(of).collect();
    let picked = match net.noisy(node) {
        Some(family) => stream.pick(family.row(&given).into_iter()),
        None => {
            let row =
                n.parents.iter().zip(&given).fold(0, |at, (p, s)| at * net.nodes()[*p].states.len() + s);
            let row = n.cpt.get(row * width..(row + 1) * width).unwrap_or_default();
            stream.pick(row.iter().copied())
        }
    };
    picked.unwrap_or(0)
}

/// Draws every node that has no state yet.
pub(crate) fn draw_rest(net: &Network, states: &mut States, stream: &mut Stream) {
    for node in net.topological() {
        if states[*node].is_none() {
            states[*node] = Some(draw_node(net, *node, states, stream));
        }
    }
}

/// Draws the nodes above some nodes, and these, again and again until `meets` holds: an exact draw given that it holds.
/// Nodes that have a state keep it. False when it never held; the states then are as they were.
pub(crate) fn draw_given(
    net: &Network,
    wanted: &[NodeId],
    states: &mut States,
    stream: &mut Stream,
    meets: impl Fn(&States) -> bool,
) -> bool {
    let mut above = vec![false; net.len()];
    wanted.iter().for_each(|n| above[*n] = true);
    for node in net.topological().iter().rev().filter(|n| states[**n].is_none()) {
        if above[*node] {
            net.nodes()[*node].parents.iter().for_each(|p| above[*p] = true);
        }
    }
    let free: Vec<NodeId> =
        net.topological().iter().copied().filter(|n| above[*n] && states[*n].is_none()).collect();
    let mut trial = states.clone();
    for _ in 0..TRIES {
        free.iter().for_each(|n| trial[*n] = None);
        for node in &free {
            trial[*node] = Some(draw_node(net, *node, &trial, stream));
        }
        if meets(&trial) {
            *states = trial;
            return true;
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use inference::NetworkBuilder;

    /// Rain → wet ← hose, wet → slip; the hose's effect is a factored noisy-OR.
    fn net() -> Network {
        let mut b = NetworkBuilder::new();
        let [rain, hose, wet] = ["rain", "hose", "wet"].map(|name| b.node(name, &["no", "yes"]).unwrap());
        b.table(rain, &[], vec![0.7, 0.3]).unwrap();
        b.table(hose, &[rain], vec![0.5, 0.5, 0.9, 0.1]).unwrap();
        b.noisy_or(wet, &[(rain, 0.9), (hose, 0.6)], 0.05).unwrap();
        b.build().unwrap()
    }

    fn shares(n: u32, mut draw: impl FnMut(&mut Stream) -> States) -> Vec<f64> {
        let mut stream = Stream::new(3, 1, "forward");
        let mut yes = [0u32; 3];
        for _ in 0..n {
            draw(&mut stream).iter().zip(&mut yes).for_each(|(s, y)| *y += u32::from(*s == Some(1)));
        }
        yes.iter().map(|y| f64::from(*y) / f64::from(n)).collect()
    }

    /// Exact marginals by the engine, with and without evidence; z of 4.5 at 20,000 draws.
    #[test]
    fn forward_draws_have_the_marginals_of_the_network() {
        let (net, n) = (net(), 20_000);
        let check = |got: &[f64], evidence: &inference::Evidence| {
            let exact = inference::posterior(&net, evidence).unwrap();
            for (node, got) in got.iter().enumerate() {
                let p = exact.of(node)[1];
                let band = 4.5 * libm::sqrt(p * (1.0 - p) / f64::from(n));
                assert!((got - p).abs() <= band, "node {node}: {got} {p}");
            }
        };
        let free = shares(n, |stream| {
            let mut states = vec![None; 3];
            draw_rest(&net, &mut states, stream);
            states
        });
        check(&free, &inference::Evidence::new());
        let mut evidence = inference::Evidence::new();
        evidence.observe(2, 1);
        let wet = shares(n, |stream| {
            let mut states = vec![None; 3];
            assert!(draw_given(&net, &[2], &mut states, stream, |s| s[2] == Some(1)));
            states
        });
        check(&wet, &evidence);
    }

    #[test]
    fn what_cannot_be_leaves_the_states_alone_and_what_is_settled_stays() {
        let net = net();
        let mut stream = Stream::new(3, 2, "forward");
        let mut states = vec![None, Some(1), None];
        assert!(!draw_given(&net, &[2], &mut states, &mut stream, |_| false));
        assert_eq!(states, [None, Some(1), None]);
        assert!(draw_given(&net, &[2], &mut states, &mut stream, |s| s[2] == Some(0)));
        assert_eq!((states[1], states[2]), (Some(1), Some(0)));
    }
}
