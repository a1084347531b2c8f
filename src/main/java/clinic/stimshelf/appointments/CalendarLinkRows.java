package clinic.stimshelf.appointments;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class CalendarLinkRows implements PanacheRepository<CalendarLink> {}
