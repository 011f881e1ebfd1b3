//! From the document to what is seen: weighed numbers, tables, scenes, and all words.

pub mod act;
pub mod choose;
pub mod client_view;
pub mod detail;
pub mod entry;
pub mod file_name;
pub mod first_width;
pub mod frame_question;
pub mod matching;
pub mod picture;
pub mod scene;
pub mod sheet;
pub mod side;
pub mod standing;
pub mod step;
pub mod table;
pub mod trend;
pub mod weigh;
pub mod words;

#[cfg(test)]
mod testing;
