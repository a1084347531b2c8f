package clinic.stimshelf.location;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class OpeningHoursRows implements PanacheRepository<OpeningHours> {}
