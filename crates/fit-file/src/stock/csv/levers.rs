//! The table of levers: a row for each kind, outline and adjuster as lists in one cell.

use super::row::{Named, Row, Told, shelf_cell, word_of};
use super::{Part, cell, column_called};
use crate::stock::levers::{FEWEST_OUTLINE_POINTS, LeverWrong, wrong_with};
use fit_doc::{
    Blade, Findings, Lever, LeverSort, Message, Place, StockList, TableColumn, TableWants,
};

const SORTS: Named<LeverSort> = (
    &["mechanical", "hydraulic", "small_hand", "long_body", "brake_only", "wide_flare"],
    &[
        LeverSort::Mechanical,
        LeverSort::Hydraulic,
        LeverSort::SmallHand,
        LeverSort::LongBody,
        LeverSort::BrakeOnly,
        LeverSort::WideFlare,
    ],
);

impl Part for Lever {
    const LIST: StockList = StockList::Levers;

    fn from_row(row: &mut Row<'_>) -> Result<Self, Told> {
        use TableColumn as C;
        let id = row.stock_number();
        let name = row.name(C::Name);
        let sort = row.one_of(C::Sort, SORTS);
        let [grip, pivot, usable] = [C::Grip, C::Pivot, C::Usable].map(|column| row.pair(column));
        let [slope, radius, clamp] =
            [C::HoodSlope, C::GripRadius, C::ClampWidth].map(|column| row.number(column));
        let [length, rest, travel] =
            [C::BladeLength, C::RestAngle, C::FreeTravel].map(|column| row.number(column));
        let adjuster = row.numbers(C::Adjuster);
        let outline = row.points(C::HoodOutline, FEWEST_OUTLINE_POINTS);
        let shelf = row.shelf();
        let lever = Self {
            id: id?,
            name: name?,
            sort: sort?,
            grip_mm: grip?,
            hood_slope_deg: slope?,
            grip_radius_mm: radius?,
            hood_outline_mm: outline?,
            blade: Blade {
                pivot_mm: pivot?,
                length_mm: length?,
                usable_mm: usable?,
                rest_angle_deg: rest?,
                adjuster_deg: adjuster?,
                free_travel_mm: travel?,
            },
            clamp_width_mm: clamp?,
            shelf: shelf?,
        };
        match wrong_with(&lever.blade) {
            None => Ok(lever),
            Some(LeverWrong::Usable) => {
                let length_mm = lever.blade.length_mm;
                Err(row.found(C::Usable, TableWants::OnTheBlade { length_mm }))
            }
            Some(LeverWrong::FirstClick(_)) => Err(row.found(C::Adjuster, TableWants::FirstNought)),
        }
    }

    fn cell(&self, column: TableColumn) -> String {
        use TableColumn as C;
        let pair = |(first, second): (f64, f64)| cell::numbers_cell(&[first, second]);
        match column {
            C::Id => cell::text_cell(&self.id),
            C::Name => cell::text_cell(&self.name),
            C::Sort => word_of(self.sort, SORTS),
            C::Grip => pair(self.grip_mm),
            C::HoodSlope => cell::number_cell(self.hood_slope_deg),
            C::GripRadius => cell::number_cell(self.grip_radius_mm),
            C::ClampWidth => cell::number_cell(self.clamp_width_mm),
            C::Pivot => pair(self.blade.pivot_mm),
            C::BladeLength => cell::number_cell(self.blade.length_mm),
            C::Usable => pair(self.blade.usable_mm),
            C::RestAngle => cell::number_cell(self.blade.rest_angle_deg),
            C::Adjuster => cell::numbers_cell(&self.blade.adjuster_deg),
            C::FreeTravel => cell::number_cell(self.blade.free_travel_mm),
            C::HoodOutline => cell::points_cell(&self.hood_outline_mm),
            of_the_shelf => shelf_cell(&self.shelf, of_the_shelf).unwrap_or_default(),
        }
    }

    fn id(&self) -> &str {
        &self.id
    }

    fn check(&self, findings: &mut Findings, place: &Place) {
        fit_doc::check_lever(findings, place, self);
    }

    fn column_of(message: &Message) -> Option<TableColumn> {
        let place = message.place()?;
        match place.last_field()? {
            // the blade's own, beside which the table has other lengths
            "length_mm" => Some(TableColumn::BladeLength),
            field => column_called(Self::LIST, field),
        }
    }
}
