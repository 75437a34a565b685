namespace PupilBridge.Instrument.Links;

/// <summary>The times and sizes by which the two sides of a link act. docs/protocol.md gives the reason for each.</summary>
public static class LinkTiming
{
    /// <summary>How often an instrument sends its heartbeat.</summary>
    public static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(1);

    /// <summary>Without a good line for so long, a host takes the line for dead.</summary>
    public static readonly TimeSpan Stall = TimeSpan.FromSeconds(3);

    /// <summary>How long a host waits for a whole identity before it greets again.</summary>
    public static readonly TimeSpan Greeting = TimeSpan.FromSeconds(1);

    /// <summary>How often a host that was refused greets again while another host holds the instrument.</summary>
    public static readonly TimeSpan GreetingWhileHeld = TimeSpan.FromSeconds(3);

    /// <summary>How often a host greets again an instrument with which it has no version in common.</summary>
    public static readonly TimeSpan GreetingWithoutVersion = TimeSpan.FromSeconds(10);

    /// <summary>A host says something at least this often, if only the last acknowledgement again.</summary>
    public static readonly TimeSpan KeepAlive = TimeSpan.FromSeconds(3);

    /// <summary>The shortest time between two acknowledgements that were not called for by newly durable events.</summary>
    public static readonly TimeSpan RepeatedAck = TimeSpan.FromMilliseconds(100);

    /// <summary>The shortest time between two requests to send again.</summary>
    public static readonly TimeSpan Resend = TimeSpan.FromMilliseconds(500);

    /// <summary>Events that came so shortly before a heartbeat show that the instrument is still sending.</summary>
    public static readonly TimeSpan TailQuiet = TimeSpan.FromMilliseconds(250);

    /// <summary>How long a host waits for the reply to a command.</summary>
    public static readonly TimeSpan CommandReply = TimeSpan.FromSeconds(1);

    /// <summary>How often a host sends a command before it gives up.</summary>
    public const int CommandTries = 3;

    /// <summary>Without an acknowledgement for so long, an instrument sends again what it keeps.</summary>
    public static readonly TimeSpan Retransmission = TimeSpan.FromSeconds(2);

    /// <summary>A host that is silent for so long may be replaced by another, and is sent no events.</summary>
    public static readonly TimeSpan Hold = TimeSpan.FromSeconds(10);

    /// <summary>The shortest time between two live positions of one scale.</summary>
    public static readonly TimeSpan LivePosition = TimeSpan.FromMilliseconds(40);

    /// <summary>How much an instrument may have waiting to leave before it holds further events back.</summary>
    public static readonly TimeSpan LineAhead = TimeSpan.FromMilliseconds(50);

    /// <summary>The least number of events that an instrument's memory holds.</summary>
    public const int LeastKept = 512;

    /// <summary>How far a number may be above its tick in milliseconds: one event each millisecond, and so many at the start.</summary>
    public const int EventsAhead = 1000;

    /// <summary>How many events may be lost by the word of one line alone; of more a second line must tell.</summary>
    public const int LossAtOnce = 1000;

    /// <summary>How many ended boots a host remembers beside its journal, so as to tell of each end once.</summary>
    public const int EndedBootsRemembered = 1024;

    /// <summary>How many replies an instrument remembers.</summary>
    public const int RepliesRemembered = 16;

    /// <summary>How many fingerprints of accepted events a host remembers, to tell a repetition from a conflict.</summary>
    public const int FingerprintsRemembered = 1024;
}
