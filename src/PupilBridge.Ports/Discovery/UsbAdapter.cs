namespace PupilBridge.Ports;

/// <summary>What a USB adapter says about itself. Many cheap ones have no serial number.</summary>
/// <param name="Vendor">The vendor's number, four hexadecimal digits.</param>
/// <param name="Product">The product's number, four hexadecimal digits.</param>
/// <param name="Serial">The adapter's serial number, which is not the instrument's; null for none.</param>
/// <param name="Maker">The maker in words; null for none.</param>
/// <param name="ProductName">The product in words; null for none.</param>
public sealed record UsbAdapter(string Vendor, string Product, string? Serial, string? Maker, string? ProductName);
