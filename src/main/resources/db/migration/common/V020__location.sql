-- Locations of the clinic: when they are open, their rooms, how they want things done.

create sequence location_seq start with 1 increment by 50;
create table location (
  id bigint primary key,
  version integer not null,
  code varchar(32) not null,
  name varchar(120) not null,
  zone varchar(64) not null,
  phone varchar(40),
  address varchar(300),
  after_hours_words varchar(500),
  emergency_words varchar(500),
  constraint location_code unique (code)
);

create sequence opening_hours_seq start with 1 increment by 50;
create table opening_hours (
  id bigint primary key,
  location_id bigint not null references location (id),
  weekday integer not null,
  opens time not null,
  closes time not null,
  constraint opening_hours_weekday check (weekday between 1 and 7)
);
create index opening_hours_location on opening_hours (location_id);

-- A closed day has no times; a half day has both.
create sequence closure_seq start with 1 increment by 50;
create table closure (
  id bigint primary key,
  location_id bigint not null references location (id),
  on_day date not null,
  opens time,
  closes time,
  reason varchar(200) not null,
  entered_at timestamp(6) with time zone not null,
  constraint closure_once unique (location_id, on_day)
);

create sequence room_seq start with 1 increment by 50;
create table room (
  id bigint primary key,
  location_id bigint not null references location (id),
  name varchar(60) not null,
  capacity integer not null,
  active boolean not null,
  constraint room_name unique (location_id, name),
  constraint room_capacity check (capacity between 1 and 100)
);

create sequence location_setting_seq start with 1 increment by 50;
create table location_setting (
  id bigint primary key,
  location_id bigint not null references location (id),
  name varchar(60) not null,
  setting_value varchar(500) not null,
  constraint location_setting_once unique (location_id, name)
);
