//! In which order nodes are eliminated: nested dissection by their places.
//!
//! A. George, "Nested dissection of a regular finite element mesh", SIAM J. Numer. Anal. 10 (1973), p. 345.

/// Nodes that are eliminated together, after those of the groups below them.
#[derive(Debug)]
pub(super) struct Group {
    pub(super) nodes: Vec<usize>,
    /// Places of the groups below it, all before it in the list.
    pub(super) below: Vec<usize>,
}

/// So few nodes are not parted further.
const FEW: usize = 20;

/// Groups, each after those below it; `near` has the nodes that share an element with each.
#[must_use]
pub(super) fn groups(places: &[[f64; 3]], near: &[Vec<usize>]) -> Vec<Group> {
    let mut parting = Parting {
        places,
        near,
        side: vec![0; places.len()],
        count: 0,
        groups: Vec::new(),
    };
    parting.part((0..places.len()).collect());
    parting.groups
}

struct Parting<'a> {
    places: &'a [[f64; 3]],
    near: &'a [Vec<usize>],
    /// In which half of which parting a node is.
    side: Vec<usize>,
    count: usize,
    groups: Vec<Group>,
}

impl Parting<'_> {
    fn part(&mut self, nodes: Vec<usize>) -> usize {
        if nodes.len() > FEW
            && let Some([low, high, between]) = self.halves(&nodes)
        {
            let below = vec![self.part(low), self.part(high)];
            return self.add(between, below);
        }
        self.add(nodes, Vec::new())
    }

    fn add(&mut self, nodes: Vec<usize>, below: Vec<usize>) -> usize {
        self.groups.push(Group { nodes, below });
        self.groups.len() - 1
    }

    /// Two halves that do not touch, and what lies between them.
    fn halves(&mut self, nodes: &[usize]) -> Option<[Vec<usize>; 3]> {
        let reach = |axis: usize| {
            let along = nodes.iter().map(|node| self.places[*node][axis]);
            along.clone().fold(f64::MIN, f64::max) - along.fold(f64::MAX, f64::min)
        };
        let mut axes = [0, 1, 2];
        axes.sort_by(|a, b| reach(*b).total_cmp(&reach(*a)));
        for axis in axes {
            let mut along: Vec<f64> = nodes.iter().map(|node| self.places[*node][axis]).collect();
            along.sort_by(f64::total_cmp);
            let middle = along[along.len() / 2] - 1e-9;
            self.count += 1;
            let mark = self.count;
            let (low, rest): (Vec<usize>, Vec<usize>) = nodes
                .iter()
                .partition(|node| self.places[**node][axis] < middle);
            for node in &low {
                self.side[*node] = mark;
            }
            let (between, high): (Vec<usize>, Vec<usize>) = rest
                .into_iter()
                .partition(|node| self.near[*node].iter().any(|near| self.side[*near] == mark));
            if !low.is_empty() && !high.is_empty() {
                return Some([low, high, between]);
            }
        }
        None
    }
}
