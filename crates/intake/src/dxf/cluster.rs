//! What stands at the same place, within a hair.

/// Things by what they stand at and how near others have to be; groups of one are groups, too.
pub(super) struct Clusters {
    order: Vec<usize>,
    ends: Vec<usize>,
}

impl Clusters {
    /// Puts together what is joined by steps within the smaller hair of two neighbors, along every axis.
    pub(super) fn new<const N: usize>(things: &[([f64; N], f64)]) -> Self {
        let mut order: Vec<usize> = (0..things.len()).collect();
        let mut ends = vec![things.len()];
        // Twice: what was joined along x by something that y set apart is no neighbor any more.
        for axis in (0..N).chain(0..N) {
            let mut split = Vec::with_capacity(ends.len());
            let mut start = 0;
            for end in ends {
                let group = &mut order[start..end];
                let key = |at: usize| things[at].0[axis];
                group.sort_by(|a, b| key(*a).total_cmp(&key(*b)).then(a.cmp(b)));
                for at in 1..group.len() {
                    let (before, behind) = (group[at - 1], group[at]);
                    let hair = things[before].1.min(things[behind].1);
                    if key(behind) - key(before) > hair {
                        split.push(start + at);
                    }
                }
                split.push(end);
                start = end;
            }
            ends = split;
        }
        ends.retain(|end| *end > 0);
        Self { order, ends }
    }

    /// The groups, each by the numbers of its things, the first ones first.
    pub(super) fn groups(&self) -> Vec<Vec<usize>> {
        let mut groups: Vec<Vec<usize>> = Vec::with_capacity(self.ends.len());
        let mut start = 0;
        for end in &self.ends {
            let mut group = self.order[start..*end].to_vec();
            group.sort_unstable();
            groups.push(group);
            start = *end;
        }
        groups.sort_by_key(|group| group.first().copied());
        groups
    }
}

#[cfg(test)]
mod tests {
    use super::Clusters;

    #[test]
    fn what_is_near_along_every_axis_is_one() {
        let at = |x: f64, y: f64| ([x, y], 0.1);
        let things = [
            at(5.0, 5.0),
            at(0.0, 0.0),
            at(0.05, 9.0),
            at(0.1, 0.05),
            at(5.0, 5.05),
        ];
        let groups = Clusters::new(&things).groups();
        assert_eq!(groups, [vec![0, 4], vec![1, 3], vec![2]]);
        assert!(Clusters::new::<2>(&[]).groups().is_empty());
    }
}
