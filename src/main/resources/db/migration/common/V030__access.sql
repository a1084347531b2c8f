-- Who works here, where, and how they sign in. Nothing that signs anybody in is stored as it is typed.

create sequence staff_seq start with 1 increment by 50;
create table staff (
  id bigint primary key,
  version integer not null,
  ref varchar(32) not null,
  name varchar(120) not null,
  initials varchar(8) not null,
  credential varchar(32) not null,
  license_number varchar(40),
  license_ends_on date,
  role varchar(32) not null,
  username varchar(64),
  password_hash varchar(200),
  password_set_at timestamp(6) with time zone,
  active boolean not null,
  constraint staff_ref unique (ref),
  constraint staff_username unique (username)
);
create index staff_role on staff (role, active);

create table staff_location (
  staff_id bigint not null references staff (id),
  location_id bigint not null references location (id),
  primary key (staff_id, location_id)
);
create index staff_location_location on staff_location (location_id);

-- A browser's session; the cookie holds the identifier, this row only its SHA-256.
create sequence browser_session_seq start with 1 increment by 50;
create table browser_session (
  id bigint primary key,
  token_hash varchar(64) not null,
  staff_id bigint not null references staff (id),
  location_id bigint references location (id),
  privacy boolean not null,
  started_at timestamp(6) with time zone not null,
  seen_at timestamp(6) with time zone not null,
  ended_at timestamp(6) with time zone,
  constraint browser_session_token unique (token_hash)
);
create index browser_session_staff on browser_session (staff_id);
create index browser_session_location on browser_session (location_id);
create index browser_session_started on browser_session (started_at);

-- A form that was typed while the session ran out, sealed with what only the browser holds.
create sequence held_form_seq start with 1 increment by 50;
create table held_form (
  id bigint primary key,
  token_hash varchar(64) not null,
  sealed text not null,
  held_at timestamp(6) with time zone not null,
  constraint held_form_token unique (token_hash)
);
create index held_form_held on held_form (held_at);

create sequence access_key_seq start with 1 increment by 50;
create table access_key (
  id bigint primary key,
  version integer not null,
  staff_id bigint not null references staff (id),
  name varchar(80) not null,
  role varchar(32) not null,
  key_hash varchar(64) not null,
  made_at timestamp(6) with time zone not null,
  last_used_at timestamp(6) with time zone,
  revoked_at timestamp(6) with time zone,
  constraint access_key_hash unique (key_hash)
);
create index access_key_staff on access_key (staff_id);

create table access_key_location (
  access_key_id bigint not null references access_key (id),
  location_id bigint not null references location (id),
  primary key (access_key_id, location_id)
);
create index access_key_location_location on access_key_location (location_id);

-- Codes that work once: to set a password, or (without staff) to make the first account.
create sequence one_time_code_seq start with 1 increment by 50;
create table one_time_code (
  id bigint primary key,
  staff_id bigint references staff (id),
  code_hash varchar(64) not null,
  made_at timestamp(6) with time zone not null,
  expires_at timestamp(6) with time zone not null,
  used_at timestamp(6) with time zone,
  constraint one_time_code_hash unique (code_hash)
);
create index one_time_code_staff on one_time_code (staff_id);

-- Failed sign-ins by account (known or not) and by address, so that a restart forgets none.
create sequence failed_sign_in_seq start with 1 increment by 50;
create table failed_sign_in (
  id bigint primary key,
  subject varchar(80) not null,
  failures integer not null,
  last_failed_at timestamp(6) with time zone not null,
  blocked_until timestamp(6) with time zone,
  constraint failed_sign_in_subject unique (subject)
);
create index failed_sign_in_last on failed_sign_in (last_failed_at);
