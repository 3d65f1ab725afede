//! What the dock is given: workbook, records, text. Decides nothing.
