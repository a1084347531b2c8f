-- Whether the ledger of a location changed since the history was last read is asked on every page.
create index stock_movement_recorded on stock_movement (location_id, recorded_at);
