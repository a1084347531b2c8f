-- What a pack of each type costs by the list, from which day on, so that a look back is made with the price of then.

create table pad_price (
  pad_type_id bigint not null references pad_type (id),
  from_day date not null,
  price numeric(12,4) not null,
  primary key (pad_type_id, from_day)
);
insert into pad_price (pad_type_id, from_day, price)
  select id, date '1970-01-01', price from pad_type;
