//! Labels that do not collide.
//!
//! Labels stand in one column beside what they name, each tied to its line by a leader. They keep
//! the order of the points they name, so that leaders do not cross, and are pushed apart just as
//! far as they need: the least-squares solution of "stay near, keep your distance" (pool adjacent
//! violators; Ayer et al. 1955, Annals of Mathematical Statistics 26:641).

/// One label that wants to stand at a height.
#[derive(Debug, Clone, PartialEq)]
pub struct LabelWish<T> {
    /// Where its middle would like to be, mm.
    pub wanted_mm: f64,
    /// What it belongs to.
    pub item: T,
}

/// Gives each label a height: in the order of the wishes' heights (lowest first), at least
/// `pitch_mm` apart, inside `least_mm..=most_mm` where they fit, and as near to the wishes as
/// that allows.
pub fn place_labels<T>(
    mut wishes: Vec<LabelWish<T>>,
    pitch_mm: f64,
    least_mm: f64,
    most_mm: f64,
) -> Vec<(f64, T)> {
    wishes.sort_by(|a, b| a.wanted_mm.total_cmp(&b.wanted_mm));
    // with the pitch taken out, "at least a pitch apart" becomes "not decreasing"
    let mut blocks: Vec<(f64, usize)> = Vec::new();
    for (i, wish) in wishes.iter().enumerate() {
        blocks.push((wish.wanted_mm - pitch_mm * i as f64, 1));
        while let [.., (before, count_before), (last, count)] = blocks[..]
            && before > last
        {
            let total = count_before + count;
            let mean = (before * count_before as f64 + last * count as f64) / total as f64;
            blocks.truncate(blocks.len() - 2);
            blocks.push((mean, total));
        }
    }
    let highest = most_mm - pitch_mm * wishes.len().saturating_sub(1) as f64;
    let flat = blocks.iter().flat_map(|&(mean, count)| core::iter::repeat_n(mean, count));
    flat.zip(wishes)
        .enumerate()
        .map(|(i, (mean, wish))| {
            let inside = mean.min(highest).max(least_mm);
            (inside + pitch_mm * i as f64, wish.item)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heights(wanted: &[f64], pitch: f64) -> Vec<f64> {
        let wishes =
            wanted.iter().map(|&wanted_mm| LabelWish { wanted_mm, item: () }).collect::<Vec<_>>();
        place_labels(wishes, pitch, 0.0, 1000.0).into_iter().map(|(y, ())| y).collect()
    }

    #[test]
    fn labels_with_room_stay_where_they_want_to_be() {
        assert_eq!(heights(&[100.0, 200.0, 300.0], 20.0), [100.0, 200.0, 300.0]);
    }

    #[test]
    fn labels_at_one_height_spread_evenly_about_it() {
        assert_eq!(heights(&[100.0, 100.0, 100.0], 20.0), [80.0, 100.0, 120.0]);
    }

    #[test]
    fn none_collide_and_none_leave_the_room() {
        let wanted = [995.0, 3.0, 996.0, 5.0, 500.0, 501.0, 4.0];
        let got = heights(&wanted, 30.0);
        assert!(got.windows(2).all(|w| w[1] - w[0] >= 30.0 - 1e-9), "{got:?}");
        assert!(got[0] >= 0.0 && got[got.len() - 1] <= 1000.0, "{got:?}");
    }

    #[test]
    fn no_shift_of_one_block_would_bring_them_nearer() {
        let got = heights(&[100.0, 110.0, 115.0, 400.0], 20.0);
        let off = |ys: &[f64]| -> f64 {
            ys.iter().zip([100.0, 110.0, 115.0, 400.0]).map(|(y, w)| (y - w).powi(2)).sum()
        };
        for shift in [-0.5, 0.5] {
            let moved: Vec<f64> =
                got.iter().enumerate().map(|(i, y)| if i < 3 { y + shift } else { *y }).collect();
            assert!(off(&got) < off(&moved));
        }
    }
}
