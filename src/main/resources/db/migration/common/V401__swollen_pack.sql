-- A swollen battery: the unit stays off the shelf until somebody who may judge it has.
alter table unit add column pack_swollen boolean default false not null;
