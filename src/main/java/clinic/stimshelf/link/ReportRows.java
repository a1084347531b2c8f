package clinic.stimshelf.link;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class ReportRows implements PanacheRepository<Report> {}
