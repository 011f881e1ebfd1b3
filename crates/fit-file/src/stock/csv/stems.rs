//! The table of stems: a row for each length.

use super::row::{Row, Told, shelf_cell};
use super::{Part, cell, column_called};
use fit_doc::{Findings, Message, Place, Stem, StockList, TableColumn};

impl Part for Stem {
    const LIST: StockList = StockList::Stems;

    fn from_row(row: &mut Row<'_>) -> Result<Self, Told> {
        use TableColumn as C;
        let id = row.stock_number();
        let name = row.name(C::Name);
        let [length, angle, clamp, bar, steerer] =
            [C::Length, C::Angle, C::ClampHeight, C::BarDiameter, C::SteererDiameter]
                .map(|column| row.number(column));
        let reversible = row.yes(C::Reversible);
        let shelf = row.shelf();
        Ok(Self {
            id: id?,
            name: name?,
            length_mm: length?,
            angle_deg: angle?,
            reversible: reversible?,
            clamp_height_mm: clamp?,
            bar_diameter_mm: bar?,
            steerer_diameter_mm: steerer?,
            shelf: shelf?,
        })
    }

    fn cell(&self, column: TableColumn) -> String {
        use TableColumn as C;
        match column {
            C::Id => cell::text_cell(&self.id),
            C::Name => cell::text_cell(&self.name),
            C::Length => cell::number_cell(self.length_mm),
            C::Angle => cell::number_cell(self.angle_deg),
            C::Reversible => cell::yes_cell(self.reversible),
            C::ClampHeight => cell::number_cell(self.clamp_height_mm),
            C::BarDiameter => cell::number_cell(self.bar_diameter_mm),
            C::SteererDiameter => cell::number_cell(self.steerer_diameter_mm),
            of_the_shelf => shelf_cell(&self.shelf, of_the_shelf).unwrap_or_default(),
        }
    }

    fn id(&self) -> &str {
        &self.id
    }

    fn check(&self, findings: &mut Findings, place: &Place) {
        fit_doc::check_stem(findings, place, self);
    }

    fn column_of(message: &Message) -> Option<TableColumn> {
        column_called(Self::LIST, message.place()?.last_field()?)
    }
}
