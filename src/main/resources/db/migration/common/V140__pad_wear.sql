-- How long pads really last: sessions nobody told of count as expected, and an opening nobody told of is marked.
alter table pad_set add column expected_uses integer default 0 not null;
alter table pad_set add column opening_assumed boolean default false not null;
create index pad_set_closed on pad_set (closed_on, pad_type_id);
create index pad_set_opened on pad_set (opened_on, pad_type_id);
