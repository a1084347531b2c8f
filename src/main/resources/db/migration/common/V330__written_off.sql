-- A loan whose unit never came back ends when the unit is written off; it was not returned.
alter table loan add column written_off_at timestamp(6) with time zone;
