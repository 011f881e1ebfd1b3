//! Stock lists: the bars, stems and levers a fit is chosen from, as plain RON that a person can
//! read and edit.
//!
//! Lengths in mm, angles in degrees, money in hundredths of the shop's currency. One entry for each
//! bend or family with its sizes inside; what is read are single parts, each checked against the
//! ranges of the trade, and each bar bent once. Three lists come with the program; their data are
//! invented; a shop's own stand over them (`own.rs`) and come in from tables ([`csv`]). A list is read
//! whole or not at all, and takes its first fault for the whole answer.

mod bars;
pub mod csv;
mod error;
mod levers;
mod own;
mod reading;
mod shelf;
mod stems;
mod written;

pub use bars::parse_bars;
pub use error::{StockError, StockList};
pub use levers::parse_levers;
pub use own::{FOLDER, ShopStock, bring_in, of_shop, path_of, write_out};
pub use stems::parse_stems;

pub use fit_doc::Stock;

/// The stock that comes with the program.
///
/// ```
/// let stock = fit_file::stock::shipped()?;
/// let bar = stock.bar("bar-deep-classic-420").expect("it is in the list");
/// assert_eq!((bar.reach_mm, bar.drop_mm), (85.0, 149.0));
/// # Ok::<(), fit_file::stock::StockError>(())
/// ```
///
/// # Errors
/// Where one of the lists built into the program cannot be read; a test holds that they can.
pub fn shipped() -> Result<Stock, StockError> {
    Ok(Stock {
        bars: parse_bars(include_str!("../../../../assets/stock/bars.ron"))?,
        stems: parse_stems(include_str!("../../../../assets/stock/stems.ron"))?,
        levers: parse_levers(include_str!("../../../../assets/stock/levers.ron"))?,
    })
}
