namespace PupilBridge.Ports.Tests;

public sealed class PortDirectoryTests : IDisposable
{
    private readonly MadeUpSystem system = new();

    public void Dispose() => system.Dispose();

    [Fact]
    public void An_adapter_with_a_serial_number_is_named_by_id()
    {
        system.AddUsb("ttyUSB0", "1-2", "0403", "6001", "QC1001");
        var byId = system.AddLink("by-id", "usb-Quay_Cables_QC1001-if00-port0", "ttyUSB0");
        system.AddLink("by-path", "pci-0-usb-0:2:1.0-port0", "ttyUSB0");

        var port = Assert.Single(List());

        Assert.Equal(byId, port.StableName);
        Assert.Equal(system.Device("ttyUSB0"), port.Device);
        Assert.Equal(new UsbAdapter("0403", "6001", "QC1001", "Quay Cables", null), port.Usb);
        Assert.Null(port.Holder);
        Assert.True(port.MayOpen);
        Assert.Null(port.WhyNot);
    }

    [Fact]
    public void An_adapter_without_a_serial_number_is_named_by_the_socket_it_is_in()
    {
        system.AddUsb("ttyACM0", "1-3", "1a86", "55d4", serial: null);
        var byPath = system.AddLink("by-path", "pci-0-usb-0:3:1.0", "ttyACM0");

        var port = Assert.Single(List());

        Assert.Equal(byPath, port.StableName);
        Assert.Null(port.Usb!.Serial);
    }

    [Fact]
    public void A_device_without_links_is_its_own_name()
    {
        system.AddUsb("ttyUSB4", "1-4", "0403", "6001", "A");
        Assert.Equal(system.Device("ttyUSB4"), Assert.Single(List()).StableName);
    }

    [Fact]
    public void A_built_in_line_counts_only_if_a_chip_answered_and_consoles_never_do()
    {
        system.AddBuiltIn("ttyS0", type: 4);
        system.AddBuiltIn("ttyS1", type: 0);
        system.AddVirtual("tty1");

        var port = Assert.Single(List());

        Assert.Equal(system.Device("ttyS0"), port.Device);
        Assert.Null(port.Usb);
    }

    [Fact]
    public void A_link_to_a_device_that_has_gone_is_no_port()
    {
        system.AddLink("by-id", "usb-gone", "ttyUSB9");
        Assert.Empty(List());
    }

    [Fact]
    public void Who_holds_a_port_is_named()
    {
        system.AddUsb("ttyUSB0", "1-2", "0403", "6001", "A");
        system.AddHolder(4711, "modem-watch", "ttyUSB0");
        Assert.Equal(new PortHolder(4711, "modem-watch"), Assert.Single(List()).Holder);
    }

    [Fact]
    public void A_port_that_the_account_may_not_open_says_why()
    {
        system.AddUsb("ttyUSB0", "1-2", "0403", "6001", "A");
        system.Forbid("ttyUSB0");
        var port = Assert.Single(List());
        Assert.False(port.MayOpen);
        Assert.Contains("'kd' may not open", port.WhyNot, StringComparison.Ordinal);
    }

    [Fact]
    public void Ports_come_in_the_order_of_their_stable_names()
    {
        system.AddUsb("ttyUSB0", "1-2", "0403", "6001", "B");
        system.AddUsb("ttyUSB1", "1-3", "0403", "6001", "A");
        system.AddLink("by-id", "usb-B", "ttyUSB0");
        system.AddLink("by-id", "usb-A", "ttyUSB1");
        Assert.Equal(["ttyUSB1", "ttyUSB0"], List().Select(port => Path.GetFileName(port.Device)));
    }

    [Fact]
    public void A_system_without_any_of_the_folders_has_no_ports()
    {
        var nowhere = new SystemFolders
        {
            Devices = "/absent",
            Kernel = "/absent",
            Processes = "/absent",
        };
        Assert.Empty(new PortDirectory(nowhere).List());
    }

    [Fact]
    public async Task A_missing_port_is_told_with_those_that_are_present()
    {
        system.AddUsb("ttyUSB0", "1-2", "0403", "6001", "A");
        var openers = new PortOpeners(new PortSettings(), folders: system.Folders);
        var opener = openers.For(PortAddress.Parse("terminal:" + system.Device("ttyUSB7")));
        var missing = await Assert.ThrowsAsync<PortOpenException>(async () => await opener.OpenAsync());
        Assert.Contains("Ports present: " + system.Device("ttyUSB0"), missing.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_no_port_is_present_the_cable_is_to_be_checked()
    {
        var openers = new PortOpeners(new PortSettings(), folders: system.Folders);
        var opener = openers.For(PortAddress.Parse("terminal:" + system.Device("ttyUSB7")));
        var missing = await Assert.ThrowsAsync<PortOpenException>(async () => await opener.OpenAsync());
        Assert.Contains("check that the cable is in", missing.Message, StringComparison.Ordinal);
    }

    /// <summary>Lists the ports; each time the names alone must be the same.</summary>
    private IReadOnlyList<FoundPort> List()
    {
        var directory = new PortDirectory(system.Folders);
        var ports = directory.List();
        Assert.Equal(ports.Select(port => port.StableName), directory.ListNames());
        return ports;
    }
}
