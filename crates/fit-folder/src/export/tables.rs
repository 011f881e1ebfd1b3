//! The two kinds of table, written row by row.

use super::row::{Kind, Value, columns};
use parquet::basic::{Compression, ConvertedType, Repetition, Type as Physical};
use parquet::data_type::{ByteArray, ByteArrayType, DataType, DoubleType, Int32Type};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use parquet::schema::types::Type;
use std::fs::File;
use std::io::{self, BufWriter};
use std::sync::Arc;

/// A table that is written row by row.
pub trait Table {
    /// Writes one row: a value for each of [`columns`].
    ///
    /// # Errors
    /// The system refused, or the values are not those of the columns.
    fn row(&mut self, values: &[Value]) -> io::Result<()>;

    /// Writes what is still to be written.
    ///
    /// # Errors
    /// As [`Self::row`].
    fn finish(self: Box<Self>) -> io::Result<()>;
}

/// Comma-separated values, the names of the columns first.
#[derive(Debug)]
pub struct CsvTable(csv::Writer<BufWriter<File>>);

impl CsvTable {
    /// Begins one.
    ///
    /// # Errors
    /// The system refused.
    pub fn begin(file: BufWriter<File>) -> io::Result<Self> {
        let mut writer = csv::Writer::from_writer(file);
        writer.write_record(columns().iter().map(|column| column.name.as_str()))?;
        Ok(Self(writer))
    }
}

impl Table for CsvTable {
    fn row(&mut self, values: &[Value]) -> io::Result<()> {
        Ok(self.0.write_record(values.iter().map(Value::text))?)
    }

    fn finish(mut self: Box<Self>) -> io::Result<()> {
        self.0.flush()
    }
}

/// Rows of a row group: as many as are kept in memory before they are written.
const ROWS_AT_ONCE: usize = 8192;

/// Apache Parquet: every column may be without a value.
pub struct ParquetTable {
    writer: SerializedFileWriter<BufWriter<File>>,
    kinds: Vec<Kind>,
    /// Values that wait, by column.
    waiting: Vec<Vec<Value>>,
}

impl core::fmt::Debug for ParquetTable {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("ParquetTable").field("columns", &self.kinds.len()).finish_non_exhaustive()
    }
}

impl ParquetTable {
    /// Begins one.
    ///
    /// # Errors
    /// The system refused.
    pub fn begin(file: BufWriter<File>) -> io::Result<Self> {
        let columns = columns();
        let kinds: Vec<Kind> = columns.iter().map(|column| column.kind).collect();
        let field = |name: &str, kind: Kind| {
            let (physical, converted) = match kind {
                Kind::Text => (Physical::BYTE_ARRAY, ConvertedType::UTF8),
                Kind::Date => (Physical::INT32, ConvertedType::DATE),
                Kind::Whole => (Physical::INT32, ConvertedType::INT_32),
                Kind::Number => (Physical::DOUBLE, ConvertedType::NONE),
            };
            let builder = Type::primitive_type_builder(name, physical);
            let builder = builder.with_repetition(Repetition::OPTIONAL);
            builder.with_converted_type(converted).build().map(Arc::new)
        };
        let fields: Result<Vec<_>, _> =
            columns.iter().map(|column| field(&column.name, column.kind)).collect();
        let schema =
            fields.and_then(|fields| Type::group_type_builder("visit").with_fields(fields).build());
        let compressed = WriterProperties::builder().set_compression(Compression::SNAPPY).build();
        let writer = schema
            .and_then(|schema| {
                SerializedFileWriter::new(file, Arc::new(schema), Arc::new(compressed))
            })
            .map_err(io::Error::other)?;
        let waiting = vec![Vec::with_capacity(ROWS_AT_ONCE); kinds.len()];
        Ok(Self { writer, kinds, waiting })
    }

    fn write(&mut self) -> Result<(), ParquetError> {
        if self.waiting.first().is_none_or(Vec::is_empty) {
            return Ok(());
        }
        let mut group = self.writer.next_row_group()?;
        for (kind, values) in self.kinds.iter().zip(&mut self.waiting) {
            match kind {
                Kind::Text => put::<ByteArrayType>(&mut group, values, |value| match value {
                    Value::Text(text) => text.as_deref().map(ByteArray::from),
                    _ => None,
                })?,
                Kind::Date => put::<Int32Type>(&mut group, values, Value::days)?,
                Kind::Whole => put::<Int32Type>(&mut group, values, |value| match value {
                    Value::Whole(number) => *number,
                    _ => None,
                })?,
                Kind::Number => put::<DoubleType>(&mut group, values, |value| match value {
                    Value::Number(number) => *number,
                    _ => None,
                })?,
            }
            values.clear();
        }
        group.close().map(drop)
    }
}

/// Writes the next column of a row group.
fn put<T: DataType>(
    group: &mut SerializedRowGroupWriter<'_, BufWriter<File>>,
    values: &[Value],
    of: impl Fn(&Value) -> Option<T::T>,
) -> Result<(), ParquetError> {
    let Some(mut column) = group.next_column()? else {
        return Err(ParquetError::General("more columns than the schema has".to_owned()));
    };
    let values: Vec<Option<T::T>> = values.iter().map(of).collect();
    let levels: Vec<i16> = values.iter().map(|value| i16::from(value.is_some())).collect();
    let known: Vec<T::T> = values.into_iter().flatten().collect();
    column.typed::<T>().write_batch(&known, Some(&levels), None)?;
    column.close()
}

impl Table for ParquetTable {
    fn row(&mut self, values: &[Value]) -> io::Result<()> {
        let fits = values.iter().map(Value::kind).eq(self.kinds.iter().copied());
        if !fits {
            return Err(io::Error::other("a row that does not fit the columns"));
        }
        for (waiting, value) in self.waiting.iter_mut().zip(values) {
            waiting.push(value.clone());
        }
        if self.waiting.first().is_some_and(|of| of.len() >= ROWS_AT_ONCE) {
            self.write().map_err(io::Error::other)?;
        }
        Ok(())
    }

    fn finish(mut self: Box<Self>) -> io::Result<()> {
        self.write().map_err(io::Error::other)?;
        self.writer.into_inner().map_err(io::Error::other).and_then(|mut file| {
            use io::Write as _;
            file.flush()
        })
    }
}
