package org.lightledger.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.http.HttpResponseException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Asker;
import org.lightledger.correction.Corrections;
import org.lightledger.indexing.FolderWatch;
import org.lightledger.indexing.Importer;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerException;
import org.lightledger.store.LedgerStock;
import org.lightledger.studio.CalendarKeeping;
import org.lightledger.studio.RegionRoads;
import org.lightledger.studio.SessionPlanning;
import org.lightledger.studio.Studio;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.surroundings.SkylineKeeper;
import org.lightledger.surroundings.SkylineWork;

/**
 * Serves the owner's pages on one listener and, when asked to, the clients' pages alone on another.
 */
public final class WebServer implements AutoCloseable {
  /** One upload carries a few raw-sized pictures; a folder goes up in many uploads. */
  static final int MOST_UPLOAD_MB = 256;

  private final WebSettings settings;
  private final Javalin owner;
  private final @Nullable Javalin clients;
  private final ImportJobs jobs;
  private final SkylineKeeper skylines;
  private final RegionRoads roads;

  /**
   * A server; it listens once it is started.
   *
   * @param settings where to listen
   * @param ledger the ledger
   * @param asker answers questions
   * @param importer reads scouting shots
   * @param corrections applies the owner's word to shots
   * @param sun knows where the sun is
   * @param clock tells the present
   */
  public WebServer(
      WebSettings settings,
      Ledger ledger,
      Asker asker,
      Importer importer,
      Corrections corrections,
      SunEphemeris sun,
      Clock clock) {
    this.settings = settings;
    Path folder = Objects.requireNonNull(ledger.file().getParent(), "a ledger lies in a folder");
    this.skylines = new SkylineKeeper(ledger, new SkylineWork(ledger, clock));
    this.roads = new RegionRoads(ledger);
    Assets assets = Assets.load();
    Pages pages = new Pages();
    Previews previews = new Previews(ledger, folder.resolve("previews"));
    SharePage sharePage = new SharePage(pages, assets);
    ClientAddresses addresses = new ClientAddresses(settings.trustedProxy());
    Limits limits = new Limits(addresses, clock);
    ShareReader shareReader = new ShareReader(sun);
    ShareRoutes shares =
        new ShareRoutes(
            ledger,
            previews,
            sharePage,
            shareReader,
            new OutfitMaker(folder),
            settings.shareOrigin(),
            clock,
            limits);
    Access access = new Access(settings, ledger, pages, assets, clock, addresses);
    Guard guard = new Guard(settings, this::port, access);
    this.jobs = new ImportJobs(importer, FolderWatch.STANDARD_SETTLE);
    House house = new House(ledger, pages, assets, clock, skylines);
    this.owner =
        Javalin.create(
            config -> {
              common(config, Problems.forOwner(pages, assets));
              uploads(config, folder, MOST_UPLOAD_MB * 1024L * 1024);
              config.routes.before(
                  ctx -> {
                    guard.check(ctx);
                    limits.upload(ctx);
                  });
              access.register(config.routes);
              config.routes.get("/static/{fingerprint}/{name}", assets::serve);
              config.routes.get("/shots/{id}/preview", previews::serve);
              new ShotContrast(house, previews).register(config.routes);
              new MapRoutes(new MapTiles(ledger)).register(config.routes);
              new AskRoutes(house, asker, new LedgerStock(ledger), roads).register(config.routes);
              new QuestionRoutes(house).register(config.routes);
              new SpotListRoutes(house, importer.spotAdding()).register(config.routes);
              SpotRoutes spots = new SpotRoutes(house, sun);
              spots.register(config.routes);
              new TravelRoutes(house, spots).register(config.routes);
              Studio studio = new Studio(ledger, asker, sun, clock);
              CalendarKeeping calendar = new CalendarKeeping(ledger, studio, sun, clock);
              SessionPages sessions = new SessionPages(house, studio, sun, calendar);
              new SessionRoutes(house, studio, sessions).register(config.routes);
              new SessionStateRoutes(house, sessions).register(config.routes);
              new PlanRoutes(house, new SessionPlanning(studio, roads, sun, clock), sun)
                  .register(config.routes);
              new ScoutingRunRoutes(house, roads, sun).register(config.routes);
              new CandidateRoutes(house, studio, sessions).register(config.routes);
              new AnswerRoutes(house, sessions).register(config.routes);
              new PackRoutes(house, sessions).register(config.routes);
              new ClientRoutes(house, studio).register(config.routes);
              new ClientDataRoutes(house).register(config.routes);
              new StudioRoutes(house).register(config.routes);
              new MeasuredRoutes(house, spots).register(config.routes);
              new SurroundingsRoutes(house).register(config.routes);
              ShadowRoutes shadows = new ShadowRoutes(house, sun);
              shadows.register(config.routes);
              new ObstructionRoutes(house, shadows).register(config.routes);
              new GroupingRoutes(house, importer).register(config.routes);
              Uploads uploads = new Uploads(folder.resolve(Uploads.FOLDER));
              new ImportRoutes(house, jobs, uploads).register(config.routes);
              new FieldRoutes(house, assets, sun, studio).register(config.routes);
              new FieldEntryRoutes(house, jobs, uploads, corrections).register(config.routes);
              new AttentionRoutes(house, corrections).register(config.routes);
              new ShotRoutes(house, corrections).register(config.routes);
              SharingRoutes sharing =
                  new SharingRoutes(house, previews, sharePage, shareReader, this::shareAddress);
              new ShortlistRoutes(house, sharing).register(config.routes);
              new OutgoingRoutes(house, new CallSheets(ledger, sun, clock, pages, assets), calendar)
                  .register(config.routes);
              new MessageRoutes(house, this::shareAddress).register(config.routes);
              new MessageSettingsRoutes(house).register(config.routes);
              sharing.register(config.routes);
              shares.register(config.routes);
            });
    this.clients =
        settings.shareHost() == null
            ? null
            : Javalin.create(
                config -> {
                  common(config, Problems.forClients(pages, assets, sharePage));
                  uploads(config, folder, ReplyRoutes.MOST_UPLOAD);
                  config.routes.before(
                      ctx -> {
                        Guard.clients(ctx, settings.shareOrigin());
                        limits.upload(ctx);
                      });
                  shares.register(config.routes);
                });
  }

  /** Uploads wait in the ledger's folder. */
  private static void uploads(JavalinConfig config, Path folder, long mostBytes) {
    config.jetty.multipartConfig.cacheDirectory(folder.toString());
    config.jetty.multipartConfig.maxFileSize(mostBytes, SizeUnit.BYTES);
    config.jetty.multipartConfig.maxTotalRequestSize(mostBytes, SizeUnit.BYTES);
    config.jetty.multipartConfig.maxInMemoryFileSize(1, SizeUnit.MB);
  }

  private static void common(JavalinConfig config, Problems problems) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.http.maxRequestSize = 1_000_000;
    config.http.prefer405over404 = false;
    config.routes.exception(PageProblem.class, problems::page);
    config.routes.exception(LedgerException.class, problems::ledger);
    config.routes.exception(HttpResponseException.class, problems::http);
    config.routes.exception(Exception.class, problems::unexpected);
    config.routes.error(404, problems::notFound);
  }

  /**
   * Starts to listen.
   *
   * @return this server
   */
  public WebServer start() {
    skylines.start();
    owner.start(settings.host(), settings.port());
    if (clients != null && settings.shareHost() != null) {
      clients.start(settings.shareHost(), settings.sharePort());
    }
    return this;
  }

  /**
   * The port of the owner's pages.
   *
   * @return the port, once the server is started
   */
  public int port() {
    return owner.port();
  }

  /**
   * The port of the clients' own listener.
   *
   * @return the port, or -1 when there is no such listener
   */
  public int sharePort() {
    return clients == null ? -1 : clients.port();
  }

  /** The owner's listener with its routes. */
  Javalin ownerPages() {
    return owner;
  }

  /** The clients' own listener with its routes, or null when there is none. */
  @Nullable Javalin clientPages() {
    return clients;
  }

  /** How a client reaches a share: scheme, host and port. */
  private String shareAddress() {
    if (settings.shareAddress() != null) {
      return settings.shareAddress();
    }
    return clients == null
        ? "http://localhost:" + port()
        : "http://" + settings.shareHost() + ":" + clients.port();
  }

  /** Stops listening, and stops an import under way after its current batch. */
  @Override
  public void close() {
    skylines.close();
    jobs.close();
    owner.stop();
    roads.close();
    if (clients != null) {
      clients.stop();
    }
  }
}
