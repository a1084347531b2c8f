-- Where orders are sent, whose stock it is, and when somebody asked after a late order.
create table pad_supplier (
  name varchar(120) primary key,
  email varchar(254) not null
);
alter table supply_order add column mailed_to varchar(254);
alter table supply_order add column mailed_at timestamp(6) with time zone;
alter table supply_order add column asked_at timestamp(6) with time zone;
alter table pad_lot add column consigned boolean default false not null;
