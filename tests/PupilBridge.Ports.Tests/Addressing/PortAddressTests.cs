namespace PupilBridge.Ports.Tests;

public sealed class PortAddressTests
{
    [Theory]
    [InlineData("terminal:/dev/ttyUSB0", PortAdapter.Terminal, "/dev/ttyUSB0")]
    [InlineData("serial:/dev/serial/by-id/usb-A:B-if00", PortAdapter.Serial, "/dev/serial/by-id/usb-A:B-if00")]
    [InlineData("serial:COM3", PortAdapter.Serial, "COM3")]
    [InlineData("SERIAL:com12", PortAdapter.Serial, "com12")]
    [InlineData("tcp:localhost:7001", PortAdapter.Tcp, "localhost:7001")]
    [InlineData(" tcp:[::1]:1 ", PortAdapter.Tcp, "[::1]:1")]
    [InlineData("memory:quay", PortAdapter.Memory, "quay")]
    public void An_address_names_the_adapter_and_the_target(string text, PortAdapter adapter, string target)
    {
        var address = PortAddress.Parse(text);
        Assert.Equal((adapter, target, text.Trim()), (address.Adapter, address.Target, address.ToString()));
    }

    [Fact]
    public void A_plain_path_takes_the_adapter_of_the_system()
    {
        var expected = OperatingSystem.IsLinux() ? PortAdapter.Terminal : PortAdapter.Serial;
        Assert.Equal(expected, PortAddress.Parse("/dev/ttyACM0").Adapter);
    }

    [Theory]
    [InlineData("tcp:localhost:7001", "localhost", 7001)]
    [InlineData("tcp:[::1]:65535", "::1", 65535)]
    public void A_TCP_address_splits_into_host_and_number(string text, string host, int port)
    {
        Assert.Equal((host, port), PortAddress.Parse(text).TcpTarget);
        Assert.Equal(text, PortAddress.Tcp(host, port).Text);
    }

    [Theory]
    [InlineData("", "no name is given")]
    [InlineData(null, "no name is given")]
    [InlineData("memory:", "no name is given")]
    [InlineData("ttyUSB0", "a full path")]
    [InlineData("COM", "a full path")]
    [InlineData("COM0", "a full path")]
    [InlineData("/dev/tty\nUSB0", "control character")]
    [InlineData("tcp:localhost", "from 1 to 65535")]
    [InlineData("tcp:localhost:0", "from 1 to 65535")]
    [InlineData("tcp:localhost:65536", "from 1 to 65535")]
    [InlineData("tcp:::1:7001", "from 1 to 65535")]
    [InlineData("tcp::7001", "from 1 to 65535")]
    public void What_is_no_address_is_refused_with_the_reason_and_how_one_looks(string? text, string reason)
    {
        Assert.False(PortAddress.TryParse(text, out var address, out var error));
        Assert.Null(address);
        Assert.Contains(reason, error, StringComparison.Ordinal);
        Assert.Contains("/dev/serial/by-id/", error, StringComparison.Ordinal);
    }
}
