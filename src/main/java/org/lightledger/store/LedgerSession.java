package org.lightledger.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * The stores inside one transaction. A session is good for one thread, until the {@link LedgerWork}
 * it was given to returns.
 */
public final class LedgerSession {

  /** The tables whose changes the GeoPackage's table of contents tells. */
  enum Content {
    SPOTS,
    FACINGS,
    SHOTS,
    FILES,
    SHORTLISTS,
    SHORTLIST_ENTRIES,
    SHARES,
    SHARE_PICKS,
    OUTFIT_PICTURES,
    SETTINGS,
    ANCHORS,
    DROPPED_SPOTS,
    ELEVATION_FILES,
    MEASURED_POINTS,
    SKYLINES,
    SPOT_TRAITS,
    QUESTIONS,
    MAPS,
    OBSTRUCTIONS,
    MAP_FEATURES,
    CLIENTS,
    PACKAGES,
    SESSIONS,
    SESSION_CANDIDATES,
    PLANS,
    PLAN_STOPS,
    PLAN_CHANGES,
    DRIVES,
    SPOT_HOURS,
    CLIENT_QUESTIONS,
    ANSWERS,
    TEMPLATES,
    SENT_MESSAGES,
    GEAR,
    SESSION_ITEMS,
    SPOT_HAZARDS,
    FIELD_ENTRIES,
    DROPPED_DRIVES,
    CALENDAR_ENTRIES
  }

  private final Connection connection;
  private final Map<String, Call> calls = new HashMap<>();
  private final Set<Content> changed = EnumSet.noneOf(Content.class);
  private final ShotStore shots = new ShotStore(this);
  private final ObservationStore observations = new ObservationStore(this);
  private final SpotStore spots = new SpotStore(this);
  private final SpotSearch spotSearch = new SpotSearch(this);
  private final FileStore files = new FileStore(this);
  private final ShortlistStore shortlists = new ShortlistStore(this);
  private final ShareStore shares = new ShareStore(this);
  private final ReplyStore replies = new ReplyStore(this);
  private final ClientRecords clientRecords = new ClientRecords(this);
  private final SettingStore settings = new SettingStore(this);
  private final CorrectionStore corrections = new CorrectionStore(this);
  private final GroupingStore grouping = new GroupingStore(this);
  private final AnchorStore anchors = new AnchorStore(this);
  private final DroppedSpotStore droppedSpots = new DroppedSpotStore(this);
  private final SpotBelongings belongings = new SpotBelongings(this);
  private final SkylineStore skylines = new SkylineStore(this);
  private final ElevationStore elevation = new ElevationStore(this);
  private final TraitStore traits = new TraitStore(this);
  private final QuestionStore questions = new QuestionStore(this);
  private final MapStore maps = new MapStore(this);
  private final ObstructionStore obstructions = new ObstructionStore(this);
  private final ClientStore clients = new ClientStore(this);
  private final SessionStore sessions = new SessionStore(this);
  private final SessionRecords sessionRecords = new SessionRecords(this);
  private final CandidateStore candidates = new CandidateStore(this);
  private final PlanStore plans = new PlanStore(this);
  private final DriveStore drives = new DriveStore(this);
  private final QuestionnaireStore questionnaire = new QuestionnaireStore(this);
  private final PackStore packing = new PackStore(this);
  private final MessageStore messages = new MessageStore(this);
  private final CalendarStore calendar = new CalendarStore(this);
  private final HazardStore hazards = new HazardStore(this);
  private final FieldStore field = new FieldStore(this);
  private boolean active;

  LedgerSession(Connection connection) {
    this.connection = connection;
  }

  /**
   * The scouting shots.
   *
   * @return their store
   */
  public ShotStore shots() {
    return shots;
  }

  /**
   * The spots with their facings.
   *
   * @return their store
   */
  public SpotStore spots() {
    return spots;
  }

  /**
   * What shots tell about the light of spots.
   *
   * @return their store
   */
  public ObservationStore observations() {
    return observations;
  }

  /**
   * The spots near a place.
   *
   * @return what finds them
   */
  public SpotSearch spotSearch() {
    return spotSearch;
  }

  /**
   * The files met by imports.
   *
   * @return their store
   */
  public FileStore files() {
    return files;
  }

  /**
   * The shortlists.
   *
   * @return their store
   */
  public ShortlistStore shortlists() {
    return shortlists;
  }

  /**
   * What lets clients see a shortlist or a session.
   *
   * @return their store
   */
  public ShareStore shares() {
    return shares;
  }

  /**
   * All that is held about a client.
   *
   * @return what hands it over or erases it
   */
  public ClientRecords clientRecords() {
    return clientRecords;
  }

  /**
   * What clients sent back.
   *
   * @return their store
   */
  public ReplyStore replies() {
    return replies;
  }

  /**
   * The owner's settings.
   *
   * @return their store
   */
  public SettingStore settings() {
    return settings;
  }

  /**
   * The owner's corrections, and how to undo them.
   *
   * @return their store
   */
  public CorrectionStore corrections() {
    return corrections;
  }

  /**
   * Which shot belongs to which spot, and where spots stand.
   *
   * @return its store
   */
  public GroupingStore grouping() {
    return grouping;
  }

  /**
   * The places that are tied to spots.
   *
   * @return their store
   */
  public AnchorStore anchors() {
    return anchors;
  }

  /**
   * The spots that the owner deleted.
   *
   * @return their store
   */
  public DroppedSpotStore droppedSpots() {
    return droppedSpots;
  }

  /**
   * What hangs on spots.
   *
   * @return what asks for it and hands it over
   */
  public SpotBelongings belongings() {
    return belongings;
  }

  /**
   * What stands around spots.
   *
   * @return its store
   */
  public SkylineStore skylines() {
    return skylines;
  }

  /**
   * Where the owner keeps elevation.
   *
   * @return its store
   */
  public ElevationStore elevation() {
    return elevation;
  }

  /**
   * What spots are and have.
   *
   * @return its store
   */
  public TraitStore traits() {
    return traits;
  }

  /**
   * What is dangerous or forbidden at spots.
   *
   * @return its store
   */
  public HazardStore hazards() {
    return hazards;
  }

  /**
   * What came in from the field.
   *
   * @return its store
   */
  public FieldStore field() {
    return field;
  }

  /**
   * Questions that the owner keeps.
   *
   * @return their store
   */
  public QuestionStore questions() {
    return questions;
  }

  /**
   * The maps of regions, and what is drawn of them.
   *
   * @return their store
   */
  public MapStore maps() {
    return maps;
  }

  /**
   * What stands in the sun's way.
   *
   * @return its store
   */
  public ObstructionStore obstructions() {
    return obstructions;
  }

  /**
   * Who is photographed.
   *
   * @return its store
   */
  public ClientStore clients() {
    return clients;
  }

  /**
   * What clients can book, and the sessions with them.
   *
   * @return their store
   */
  public SessionStore sessions() {
    return sessions;
  }

  /**
   * What the owner's calendar was given.
   *
   * @return their store
   */
  public CalendarStore calendar() {
    return calendar;
  }

  /**
   * All that hangs on a session.
   *
   * @return its store
   */
  public SessionRecords sessionRecords() {
    return sessionRecords;
  }

  /**
   * The spots that sessions may stop at.
   *
   * @return their store
   */
  public CandidateStore candidates() {
    return candidates;
  }

  /**
   * The kept plans of sessions.
   *
   * @return their store
   */
  public PlanStore plans() {
    return plans;
  }

  /**
   * The owner's minutes between spots, and the hours of spots.
   *
   * @return their store
   */
  public DriveStore drives() {
    return drives;
  }

  /**
   * What the owner asks every client, and the answers.
   *
   * @return its store
   */
  public QuestionnaireStore questionnaire() {
    return questionnaire;
  }

  /**
   * What the studio packs.
   *
   * @return its store
   */
  public PackStore packing() {
    return packing;
  }

  /**
   * What goes out to clients.
   *
   * @return its store
   */
  public MessageStore messages() {
    return messages;
  }

  /** A statement, prepared once for each connection. */
  Call call(String sql) {
    if (!active) {
      throw new IllegalStateException(
          "this session is over; use it only inside the work given to Ledger.read or Ledger.write");
    }
    return prepared(sql);
  }

  /** Notes that a table changes in this transaction. */
  void changing(Content content) {
    changed.add(content);
  }

  /**
   * A number that grows with every change of spots, facings, shots and skylines.
   *
   * @return the number
   */
  public long stockVersion() {
    return call("SELECT version FROM stock").number();
  }

  void rebuildSpatialIndexes() {
    for (String table : LedgerCheck.FEATURES) {
      call("DELETE FROM rtree_" + table + "_geom").run();
      call("INSERT INTO rtree_"
              + table
              + "_geom SELECT id, ST_MinX(geom), ST_MaxX(geom), ST_MinY(geom), ST_MaxY(geom) FROM "
              + table
              + " WHERE geom NOT NULL AND NOT ST_IsEmpty(geom)")
          .run();
    }
  }

  void beginReading() {
    begin("BEGIN");
  }

  void beginWriting() {
    begin("BEGIN IMMEDIATE");
  }

  private void begin(String sql) {
    prepared(sql).run();
    changed.clear();
    active = true;
  }

  void commit(Instant now) {
    for (Content content : changed) {
      call("UPDATE gpkg_contents SET last_change = strftime('%Y-%m-%dT%H:%M:%fZ', ? / 1000.0,"
              + " 'unixepoch') WHERE table_name = ?")
          .integer(now.toEpochMilli())
          .text(content.name().toLowerCase(Locale.ROOT))
          .run();
    }
    end("COMMIT");
  }

  void endReading() {
    end("COMMIT");
  }

  void rollback() {
    end("ROLLBACK");
  }

  private void end(String sql) {
    active = false;
    prepared(sql).run();
  }

  private Call prepared(String sql) {
    Call call = calls.get(sql);
    if (call == null) {
      try {
        PreparedStatement statement = connection.prepareStatement(sql);
        call = new Call(statement);
        calls.put(sql, call);
      } catch (SQLException e) {
        throw LedgerException.of(e);
      }
    }
    return call.restart();
  }

  /** Closes the connection and with it every statement. */
  void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw LedgerException.of(e);
    }
  }
}
