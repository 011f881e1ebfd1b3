//! A page as PDF 1.7: real size, the program's own fonts embedded, text that can be selected, and
//! the structure of the page for readers that follow it (PDF/UA-1, ISO 14289-1, which the writer
//! checks). The same bytes for the same page: there is no clock and no random number in it.
//!
//! Points of the page, y down, as everywhere on pages. No shaping: a glyph a letter, left to right,
//! placed by the advances that the layout measured with.

mod draw;
mod tags;

use fit_view::picture::Picture;
use fit_view::scene::FontError;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::error::KrillaError;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::{Document, SerializeSettings};
use thiserror::Error;

/// Why there is no page.
#[derive(Debug, Error)]
#[error("the page could not be made: {0}")]
pub struct PaperError(String);

impl From<FontError> for PaperError {
    fn from(error: FontError) -> Self {
        Self(error.to_string())
    }
}

impl From<KrillaError> for PaperError {
    fn from(error: KrillaError) -> Self {
        let details = match &error {
            KrillaError::Validation(found) => format!(": {found:?}"),
            _ => String::new(),
        };
        Self(format!("{error}{details}"))
    }
}

/// The page as PDF bytes.
///
/// # Errors
/// When the page has no size, a coordinate on it is no number, or an embedded font cannot be read.
pub fn pdf(picture: &Picture) -> Result<Vec<u8>, PaperError> {
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| PaperError(format!("{error:?}")))?;
    let settings = SerializeSettings { configuration, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let title = draw::readable(&picture.title);
    document
        .set_metadata(Metadata::new().title(title.clone()).language(picture.language.to_owned()));
    let size = PageSettings::from_wh(draw::number(picture.width)?, draw::number(picture.height)?)
        .ok_or_else(|| PaperError("it has no size".into()))?;
    let mut page = document.start_page_with(size);
    let mut pen = draw::Brush::new(page.surface(), picture.theme)?;
    let structure = tags::structure(picture, &title, &mut pen)?;
    pen.finish();
    page.finish();
    document.set_outline(structure.outline);
    document.set_tag_tree(structure.tree);
    Ok(document.finish()?)
}
