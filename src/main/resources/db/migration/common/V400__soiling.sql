-- What a unit came back with beyond ordinary use, until a wipe counts; and the time before which it does not leave.
alter table unit add column soiling varchar(120);
alter table unit add column held_until timestamp(6) with time zone;
