//! What every entry says of price, stock and how it is known, in the lists' own words.
//!
//! Money in hundredths of the shop's currency.

use fit_doc::{OnTheShelf, Price};
use serde::Deserialize;

/// How a part's dimensions came to be known.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum KnownBy {
    Catalogue,
    Measured,
    Traced,
}

/// Puts the three together.
pub(super) fn on_the_shelf(
    price_cents: Option<u32>,
    in_stock: u32,
    known_by: KnownBy,
) -> OnTheShelf {
    OnTheShelf {
        price: price_cents.map(|cents| Price { cents }),
        in_stock,
        known_by: match known_by {
            KnownBy::Catalogue => fit_doc::KnownBy::Catalogue,
            KnownBy::Measured => fit_doc::KnownBy::Measured,
            KnownBy::Traced => fit_doc::KnownBy::Traced,
        },
    }
}
