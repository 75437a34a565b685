namespace PupilBridge.Ports;

/// <summary>How to open a serial line. Always 8 data bits, no parity, 1 stop bit, no flow control.</summary>
public sealed record PortSettings
{
    /// <summary>The speed that is used when nobody says another: 115,200 bits a second.</summary>
    public const int DefaultBaud = 115_200;

    /// <summary>The speed in bits a second, more than 0; ignored by TCP and memory.</summary>
    /// <value>The default value is <see cref="DefaultBaud"/>.</value>
    public int Baud { get; init; } = DefaultBaud;

    /// <summary>How long a TCP connection may take to come about.</summary>
    /// <value>The default value is 5 s: longer than any answer within a building takes.</value>
    public TimeSpan ConnectLimit { get; init; } = TimeSpan.FromSeconds(5);
}
