plant-broad-bean = fava (broad) bean
