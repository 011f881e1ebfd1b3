//! Taking parts from the shelf: a candidate with another bar, a stem that takes it.

use fit_doc::{Bar, Cockpit, Message, Stem, Stock, edit};
use fit_view::file_name::slug;
use std::path::{Path, PathBuf};

/// How the names of sessions end.
const ENDING: &str = ".session.ron";

/// A candidate like another with a bar from stock: the levers keep their heading, and where the
/// stem does not take the bar, the nearest that does takes its place.
pub(crate) fn with_bar(like: &Cockpit, bar: &Bar, stock: &Stock) -> Result<Cockpit, Message> {
    let mut cockpit = like.clone();
    cockpit.bar = bar.clone();
    cockpit.id = bar.id.replacen("bar-", "", 1);
    cockpit.label = short_name(bar);
    cockpit.ridden = false;
    if let Some(stem) = stem_for(&like.stem, bar, stock) {
        cockpit.stem = stem;
    }
    edit::carry_levers(like, &mut cockpit)?;
    Ok(cockpit)
}

/// Another stem where the present one does not take the bar.
pub(crate) fn stem_for(present: &Stem, bar: &Bar, stock: &Stock) -> Option<Stem> {
    if present.takes(bar) { None } else { nearest_stem(present, bar, stock) }
}

/// A bar's name up to its first comma, with its width.
fn short_name(bar: &Bar) -> String {
    let name = bar.name.split(',').next().unwrap_or(&bar.name);
    format!("{name} {:.0}", bar.width_mm)
}

/// The stem on the shelf that takes the bar and is nearest in length, then in angle as mounted.
fn nearest_stem(like: &Stem, bar: &Bar, stock: &Stock) -> Option<Stem> {
    let off = |stem: &Stem| {
        ((stem.length_mm - like.length_mm).abs(), (stem.angle_deg - like.angle_deg).abs())
    };
    let fits =
        |stem: &&Stem| stem.takes(bar) && stem.steerer_diameter_mm == like.steerer_diameter_mm;
    let both_ways = stock.stems.iter().filter(fits).flat_map(Stem::ways_up);
    both_ways.min_by(|a, b| {
        let (a, b) = (off(a), off(b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    })
}

/// A file name for a client's session: letters and digits of the name, and the usual ending.
pub(crate) fn file_name(client: &str) -> String {
    format!("{}{ENDING}", slug(client))
}

/// A path that does not end as sessions do gets their usual ending.
pub(crate) fn with_ending(path: &Path) -> PathBuf {
    if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ron")) {
        return path.to_owned();
    }
    let mut name = path.as_os_str().to_owned();
    name.push(ENDING);
    PathBuf::from(name)
}
