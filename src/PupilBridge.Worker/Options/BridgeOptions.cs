using PupilBridge.Worker.Erasing;

namespace PupilBridge.Worker.Options;

/// <summary>
/// What a person can set about the bridge. Every value has a default except the data folder; allowed ranges stand in
/// <see cref="BridgeSettings"/>, which reads, checks and documents them. Not safe to change once the service runs.
/// </summary>
public sealed class BridgeOptions
{
    /// <summary>The configuration section that holds these values.</summary>
    public const string Section = "Bridge";

    /// <summary>The folder that holds the journal, the exam log and the host number. There is no default.</summary>
    public string DataFolder { get; set; } = "";

    /// <summary>Whether what identifies patients is sealed in the journal, so that it can be erased.</summary>
    /// <value>The default is where a master key is there.</value>
    public SealingChoice Sealing { get; set; }

    /// <summary>
    /// The ports to listen on: <c>auto</c> (all serial ports found, also those plugged in later), or named ports.
    /// </summary>
    /// <value>The default is <c>auto</c> alone.</value>
    public IList<string> Ports { get; } = [];

    /// <summary>The line speed of serial ports in baud.</summary>
    /// <value>The default is 115200.</value>
    public int Baud { get; set; } = 115_200;

    /// <summary>The file that keeps this installation's host number, relative to the data folder.</summary>
    /// <value>The default is <c>host-id</c>.</value>
    public string HostIdFile { get; set; } = "host-id";

    /// <summary>The file with the clinic's profile; empty means the built-in default profile.</summary>
    public string ProfileFile { get; set; } = "";

    /// <summary>The most ports that are served at the same time.</summary>
    /// <value>The default is 16.</value>
    public int MaxPorts { get; set; } = 16;

    /// <summary>
    /// The most entries of one source that may wait for the disk. At this number the source's line is not read on
    /// until the disk has caught up, so that no source can crowd out another.
    /// </summary>
    /// <value>The default is 256.</value>
    public int WaitingPerSource { get; set; } = 256;

    /// <summary>A write that takes longer than this counts as an unplugged line.</summary>
    /// <value>The default is 1 s.</value>
    public TimeSpan WriteLimit { get; set; } = TimeSpan.FromSeconds(1);

    /// <summary>The wait before the first new try to open a port.</summary>
    /// <value>The default is 250 ms.</value>
    public TimeSpan ReconnectFirst { get; set; } = TimeSpan.FromMilliseconds(250);

    /// <summary>The longest wait between two tries to open a port.</summary>
    /// <value>The default is 30 s.</value>
    public TimeSpan ReconnectCap { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>How often the list of ports is looked through when ports are found automatically.</summary>
    /// <value>The default is 2 s.</value>
    public TimeSpan LookForPortsEvery { get; set; } = TimeSpan.FromSeconds(2);

    /// <summary>How many changes a screen may fall behind before it is dropped and told to start over.</summary>
    /// <value>The default is 256.</value>
    public int ScreenBacklog { get; set; } = 256;

    /// <summary>The longest wait before a failed disk is tried again; the first tries come sooner.</summary>
    /// <value>The default is 1 s.</value>
    public TimeSpan DiskRetry { get; set; } = TimeSpan.FromSeconds(1);
}
