-- Appointments that another system keeps, by its own key. A row that could not be taken is parked with why.
create sequence outside_appointment_seq start with 1 increment by 50;
create table outside_appointment (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  outside_key varchar(400) not null,
  appointment_id bigint references appointment (id),
  chart varchar(200),
  starts_at timestamp(6) with time zone,
  minutes integer,
  therapist varchar(64),
  room varchar(60),
  channels integer,
  cancelled boolean not null,
  parked varchar(1000),
  seen_at timestamp(6) with time zone not null,
  constraint outside_appointment_key unique (location_id, outside_key)
);
create index outside_appointment_parked on outside_appointment (location_id, seen_at);
